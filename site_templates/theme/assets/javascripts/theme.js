// Sets the colors before anything is drawn, so that no page flashes white in a dark cab.
// Kept on this tablet if it lets us; else the tablet's own setting decides.
(function () {
  "use strict";

  var themes = ["day", "dark", "night-red"];
  var root = document.documentElement;

  function kept() {
    try {
      return localStorage.getItem("guidegen-theme");
    } catch (refused) {
      return null;
    }
  }

  function apply() {
    var theme = kept();
    if (!themes.includes(theme)) {
      theme = matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "day";
    }
    root.dataset.theme = theme;
  }

  root.classList.add("js");
  apply();
  // A page that comes back as it was left may have other colors than were chosen since.
  addEventListener("pageshow", function (event) {
    if (event.persisted && kept()) {
      apply();
    }
  });
})();
