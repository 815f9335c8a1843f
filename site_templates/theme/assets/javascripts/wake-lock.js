// Keeps the screen on while a round is under way, where the browser can. Says so by an event when
// it begins and ends; says nothing where it cannot.
(function () {
  "use strict";

  var tablet = (window.guidegen = window.guidegen || {});
  var lock = null;
  var isAsking = false;

  function tell() {
    document.dispatchEvent(
      new CustomEvent("guidegen:awake", { detail: { isAwake: lock !== null } })
    );
  }

  function ask() {
    var isWanted = tablet.round && tablet.round.current() && document.visibilityState === "visible";
    if (!isWanted || lock || isAsking || !navigator.wakeLock) {
      return;
    }
    isAsking = true;
    navigator.wakeLock
      .request("screen")
      .then(function (granted) {
        lock = granted;
        granted.addEventListener("release", function () {
          lock = null;
          tell();
        });
        tell();
        drop();
      })
      .catch(function () {
        // A low battery or a setting forbids it; the round goes on without.
      })
      .then(function () {
        isAsking = false;
      });
  }

  function drop() {
    if (lock && !tablet.round.current()) {
      lock.release();
    }
  }

  if (tablet.round) {
    tablet.round.watch(function () {
      drop();
      ask();
    });
    document.addEventListener("visibilitychange", ask);
    tablet.isAwake = function () {
      return lock !== null;
    };
    // After all scripts have run, so that whoever shows it listens.
    window.addEventListener("load", ask);
  }
})();
