/* Shows a served page again when it has changed, and what is said of it meanwhile. */
(function () {
  "use strict";
  var bar = document.getElementById("guidegen-serve");
  if (!bar || !window.fetch) {
    return;
  }
  var version = bar.getAttribute("data-version");
  var shown = bar.getAttribute("data-page");

  function show(state) {
    version = String(state.version);
    if (state.page !== shown) {
      window.location.reload();
      return;
    }
    bar.hidden = !state.bar;
    bar.className = "guidegen-serve-" + state.kind;
    bar.innerHTML = state.bar;
    ask();
  }

  function ask() {
    var query =
      "?seen=" + version + "&path=" + encodeURIComponent(window.location.pathname);
    fetch("/guidegen-serve/state" + query, { cache: "no-store" })
      .then(function (answer) {
        return answer.json();
      })
      .then(show)
      .catch(function () {
        // The server was stopped: it may be started again.
        window.setTimeout(ask, 2000);
      });
  }

  ask();
})();
