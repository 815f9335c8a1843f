// On a page of a chapter, while a round is under way: the way back to the stop that was opened.
(function () {
  "use strict";

  var tablet = window.guidegen;
  if (!tablet || !tablet.round || !tablet.hasWords("back_to_stop")) {
    return;
  }
  var bar = tablet.madeByScript(tablet.make("nav", "gg-roundbar"));
  var link = tablet.make("a", "gg-roundbar__back");
  var awake = tablet.make("span", "gg-roundbar__awake", tablet.words("awake"));
  bar.append(link, awake);

  function show() {
    var state = tablet.round.current();
    bar.hidden = state === null;
    document.documentElement.classList.toggle("gg-has-roundbar", state !== null);
    if (state) {
      var number = /^\d+$/.test(String(state.at)) ? String(state.at) : "";
      link.href = "round.html" + (number ? "#stop-" + number : "");
      link.textContent = tablet.words(number ? "back_to_stop" : "back", { number: number });
    }
    awake.hidden = !tablet.isAwake || !tablet.isAwake();
  }

  document.querySelector("[data-guide]").append(bar);
  tablet.round.watch(show);
  document.addEventListener("guidegen:awake", show);
  show();
})();
