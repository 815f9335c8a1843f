// Sets the colors before anything is drawn, so that no page flashes white in a dark cab, and asks
// for the letters at once. The choice is kept on this tablet if it lets us; else the tablet's own setting decides.
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

  // A page that was opened from a folder may not ask in this way; its letters come soon enough.
  function askForLetters() {
    var from = document.currentScript.src;
    ["Regular", "Bold"].forEach(function (weight) {
      var link = document.createElement("link");
      link.rel = "preload";
      link.as = "font";
      link.type = "font/woff2";
      link.crossOrigin = "";
      link.href = new URL("../fonts/AtkinsonHyperlegible-" + weight + ".woff2", from).href;
      document.head.append(link);
    });
  }

  root.classList.add("js");
  if (location.protocol !== "file:") {
    askForLetters();
  }
  apply();
  // A page that comes back as it was left may have other colors than were chosen since.
  addEventListener("pageshow", function (event) {
    if (event.persisted && kept()) {
      apply();
    }
  });
})();
