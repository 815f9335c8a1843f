// The button for the colors: day, dark, night red, and round again.
(function () {
  "use strict";

  var following = { day: "dark", dark: "night-red", "night-red": "day" };

  document.querySelectorAll("[data-theme-button]").forEach(function (button) {
    button.addEventListener("click", function () {
      var theme = following[document.documentElement.dataset.theme];
      document.documentElement.dataset.theme = theme;
      try {
        localStorage.setItem("guidegen-theme", theme);
      } catch (refused) {
        // The choice then holds for this page only.
      }
    });
  });
})();
