// The round that is under way on this tablet, kept under `guidegen.round.<truck>` from tap to tap:
//   edition  fingerprint of the guide that it was begun on
//   revision what the bar called that guide
//   open     true from its beginning to its end; whoever changes guides leaves this truck's alone
//   begun, ended  times in ISO 8601
//   at       number of the stop that was opened last
//   places   numbers of the stops by procedure
//   stops    by number: title, result ("done" or "found"), note, time
//   times    by step: stop, title, what was said of the time or reading, time
// Nobody's name is asked for. Nothing is sent. Where the browser keeps nothing, it is held in memory
// as long as the page is open.
(function () {
  "use strict";

  var tablet = (window.guidegen = window.guidegen || {});
  var page = document.querySelector("[data-guide]");
  if (!page) {
    return;
  }
  var KEY = "guidegen.round." + page.dataset.guide;
  var inMemory = null;
  var isKept = true;
  var watchers = [];

  function isState(value) {
    return Boolean(
      value &&
        typeof value === "object" &&
        typeof value.edition === "string" &&
        value.stops &&
        typeof value.stops === "object" &&
        value.times &&
        typeof value.times === "object" &&
        value.places &&
        typeof value.places === "object"
    );
  }

  // Always from the storage: another page of this truck may have added a time.
  function load() {
    if (!isKept) {
      return inMemory;
    }
    try {
      var state = JSON.parse(window.localStorage.getItem(KEY));
      return isState(state) ? state : null;
    } catch (fault) {
      if (!(fault instanceof SyntaxError)) {
        isKept = false;
      }
      return inMemory;
    }
  }

  function save(state) {
    inMemory = state;
    try {
      if (state === null) {
        window.localStorage.removeItem(KEY);
      } else {
        window.localStorage.setItem(KEY, JSON.stringify(state));
      }
      isKept = true;
    } catch (fault) {
      isKept = false;
    }
    watchers.forEach(function (watch) {
      watch(state);
    });
  }

  // Whether what is saved will be there after a reload; asked by trying.
  function canKeep() {
    try {
      window.localStorage.setItem("guidegen.probe", "1");
      window.localStorage.removeItem("guidegen.probe");
      return isKept;
    } catch (fault) {
      return false;
    }
  }

  tablet.round = {
    unit: page.dataset.guide,
    edition: page.dataset.edition,
    load: load,
    canKeep: canKeep,

    // The round of this edition that is under way; null if there is none.
    current: function () {
      var state = load();
      return state && state.open && state.edition === page.dataset.edition ? state : null;
    },

    begin: function (places) {
      var bar = document.querySelector("[data-issue]");
      save({
        edition: page.dataset.edition,
        revision: bar ? bar.textContent.trim() : "",
        open: true,
        begun: new Date().toISOString(),
        ended: null,
        at: null,
        places: places,
        stops: {},
        times: {},
      });
    },

    change: function (act) {
      var state = tablet.round.current();
      if (state) {
        act(state);
        save(state);
      }
      return state;
    },

    clear: function () {
      save(null);
    },

    watch: function (act) {
      watchers.push(act);
    },
  };

  // Another tab, or a page that comes back as it was left, shows what is kept by now.
  function tellAll() {
    var state = load();
    watchers.forEach(function (watch) {
      watch(state);
    });
  }
  window.addEventListener("storage", function (event) {
    if (event.key === KEY || event.key === null) {
      tellAll();
    }
  });
  window.addEventListener("pageshow", function (event) {
    if (event.persisted) {
      tellAll();
    }
  });
})();
