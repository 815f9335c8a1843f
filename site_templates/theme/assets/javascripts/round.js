// Doing the round: a tick and a note at each stop, kept on this tablet from tap to tap. Without it
// the page says every stop just the same.
(function () {
  "use strict";

  var tablet = window.guidegen;
  var list = document.querySelector(".gg-stops");
  if (!tablet || !tablet.round || !list || !tablet.hasWords("begin")) {
    return;
  }
  var words = tablet.words;
  var make = tablet.make;
  var button = tablet.button;
  var page = document.querySelector("[data-guide]");
  var GUARD = 700; // milliseconds in which a second tap is meant for the stop that has scrolled away
  var lastTick = { number: null, time: -GUARD };
  var isOnSummary = false;
  var showsOldNotes = false;
  var asksAnew = false;

  var stops = Array.from(document.querySelectorAll("[data-stop]"), function (element) {
    var link = element.querySelector(".gg-stop__head a");
    return {
      number: Number(element.dataset.stop),
      element: element,
      link: link,
      title: link.textContent.trim(),
      procedure: link.hash.slice(1),
    };
  });

  var panel = tablet.madeByScript(make("section", "gg-rounding"));
  var summaryPlace = tablet.madeByScript(make("div", "gg-summary-place"));
  var bar = tablet.madeByScript(make("div", "gg-roundbar"));
  var progress = make("b", "gg-roundbar__progress");
  var awake = make("span", "gg-roundbar__awake", words("awake"));
  var next = button("gg-tap", words("next"), function () {
    showSummary(false);
    goTo(nextOpen(0));
  });
  var toSummary = button("gg-tap", words("summary"), function () {
    showSummary(!isOnSummary);
  });
  progress.setAttribute("role", "status");
  bar.append(progress, awake, next, toSummary);

  function begin() {
    var places = {};
    stops.forEach(function (stop) {
      (places[stop.procedure] = places[stop.procedure] || []).push(stop.number);
    });
    asksAnew = showsOldNotes = false;
    tablet.round.begin(places);
    showSummary(false);
    goTo(stops[0]);
  }

  // Of the stops after *number* the first without a tick, else the first of all.
  function nextOpen(number) {
    var state = tablet.round.current();
    var open = stops.filter(function (stop) {
      return state && !(state.stops[stop.number] && state.stops[stop.number].result);
    });
    var later = open.find(function (stop) {
      return stop.number > number;
    });
    return later || open[0] || null;
  }

  function goTo(stop) {
    if (!stop) {
      showSummary(true);
      return;
    }
    stop.element.tabIndex = -1;
    stop.element.scrollIntoView({ block: "start" });
    stop.element.focus({ preventScroll: true });
  }

  function entryOf(state, stop) {
    var entry = state.stops[stop.number] || { title: stop.title, result: null, note: "" };
    state.stops[stop.number] = entry;
    return entry;
  }

  function tick(stop, result) {
    var now = performance.now();
    if (lastTick.number !== stop.number && now - lastTick.time < GUARD) {
      return;
    }
    lastTick = { number: stop.number, time: now };
    var isTaken = false;
    tablet.round.change(function (state) {
      var entry = entryOf(state, stop);
      isTaken = entry.result !== result;
      entry.result = isTaken ? result : null;
      entry.time = new Date().toISOString();
    });
    if (isTaken && result === "done") {
      goTo(nextOpen(stop.number));
    } else if (isTaken) {
      stop.note.focus();
    }
  }

  function addTicks(stop) {
    var box = tablet.madeByScript(make("div", "gg-ticks"));
    var taps = make("div", "gg-taps");
    var noteBox = make("div", "gg-note");
    var label = make("label", "gg-note__label", words("note", { number: stop.number }));
    stop.done = button("gg-tap gg-tap--done", words("done"), function () {
      tick(stop, "done");
    });
    stop.found = button("gg-tap gg-tap--found", words("found"), function () {
      tick(stop, "found");
    });
    stop.note = make("textarea", "gg-note__text");
    stop.times = make("ul", "gg-ticks__times");
    stop.ticks = box;
    stop.noteBox = noteBox;
    stop.note.rows = 2;
    stop.note.maxLength = 400;
    stop.note.autocomplete = "off";
    stop.note.addEventListener("input", function () {
      tablet.round.change(function (state) {
        entryOf(state, stop).note = stop.note.value;
      });
    });
    label.append(stop.note);
    noteBox.append(
      label,
      make("p", "gg-note__hint", words("note_hint")),
      button("gg-tap", words("next"), function () {
        goTo(nextOpen(stop.number));
      })
    );
    taps.setAttribute("role", "group");
    taps.setAttribute("aria-label", words("ticks", { number: stop.number }));
    taps.append(stop.done, stop.found);
    box.append(stop.times, taps, noteBox);
    stop.element.append(box);
    stop.link.addEventListener("click", function () {
      tablet.round.change(function (state) {
        state.at = stop.number;
      });
    });
  }

  function drawStop(stop, state) {
    var entry = (state && state.stops[stop.number]) || {};
    stop.ticks.hidden = state === null;
    stop.element.classList.toggle("gg-stop--done", entry.result === "done");
    stop.element.classList.toggle("gg-stop--found", entry.result === "found");
    stop.done.setAttribute("aria-pressed", String(entry.result === "done"));
    stop.found.setAttribute("aria-pressed", String(entry.result === "found"));
    stop.noteBox.hidden = entry.result !== "found" && !entry.note;
    if (stop.note.value !== (entry.note || "")) {
      stop.note.value = entry.note || "";
    }
    var said = Object.keys(state ? state.times : {})
      .map(function (id) {
        return state.times[id];
      })
      .filter(function (time) {
        return time.stop === stop.number;
      });
    stop.times.hidden = said.length === 0;
    stop.times.replaceChildren.apply(
      stop.times,
      said.map(function (time) {
        return make("li", "", String(time.said));
      })
    );
  }

  // To begin anew takes two taps, in two places.
  function anewButtons() {
    var box = make("div", "gg-taps");
    if (!asksAnew) {
      box.append(
        button("gg-tap", words("anew"), function () {
          asksAnew = true;
          draw();
          (isOnSummary ? summaryPlace : panel).querySelector(".gg-sure button").focus();
        })
      );
      return box;
    }
    box.className = "gg-sure";
    box.append(
      make("p", "", words("sure")),
      button("gg-tap", words("no_keep"), function () {
        asksAnew = false;
        draw();
      }),
      button("gg-tap gg-tap--stop", words("yes_clear"), begin)
    );
    return box;
  }

  function isToday(time) {
    return new Date(time).toDateString() === new Date().toDateString();
  }

  function drawPanel(stored, current) {
    panel.replaceChildren();
    if (!tablet.round.canKeep()) {
      var lost = make("p", "gg-rounding__notice", words("keeps_nothing"));
      lost.setAttribute("role", "alert");
      panel.append(lost);
    }
    if (stored && stored.edition !== tablet.round.edition) {
      panel.append(make("p", "gg-rounding__notice", words("guide_changed")));
      var buttons = anewButtons();
      buttons.prepend(
        button("gg-tap", words(showsOldNotes ? "hide_old_notes" : "old_notes"), function () {
          showsOldNotes = !showsOldNotes;
          draw();
        })
      );
      panel.append(buttons);
      if (showsOldNotes) {
        panel.append(tablet.drawSummary(stored, null));
      }
    } else if (stored && !current) {
      var ended = tablet.when(stored.ended);
      panel.append(make("p", "gg-rounding__notice", words("ended_before", { ended: ended })));
      var ways = anewButtons();
      ways.prepend(
        button("gg-tap", words("summary"), function () {
          showSummary(true);
        })
      );
      panel.append(ways);
    } else if (current && !isToday(current.begun)) {
      var begun = tablet.when(current.begun);
      panel.append(make("p", "gg-rounding__notice", words("begun_before", { begun: begun })));
      panel.append(anewButtons());
    } else if (!stored) {
      panel.append(make("p", "", words("what_is_kept")));
      panel.append(button("gg-tap gg-tap--go", words("begin"), begin));
    }
    panel.hidden = !panel.firstChild;
  }

  function drawSummaryPlace(stored, current) {
    summaryPlace.replaceChildren();
    if (!isOnSummary || !stored) {
      return;
    }
    var summary = tablet.drawSummary(stored, stops);
    var buttons = make("div", "gg-taps gg-summary__taps");
    buttons.append(
      button("gg-tap", words("to_stops"), function () {
        showSummary(false);
      }),
      button("gg-tap", words("print"), function () {
        window.print();
      })
    );
    if (current) {
      if (!nextOpen(0)) {
        summary.firstChild.after(make("p", "gg-summary__all", words("all_done")));
      }
      buttons.append(
        button("gg-tap gg-tap--go", words("end"), function () {
          tablet.round.change(function (state) {
            state.open = false;
            state.ended = new Date().toISOString();
          });
          summaryPlace.querySelector("h2").focus();
        })
      );
    }
    summary.append(buttons, anewButtons());
    summaryPlace.append(summary);
  }

  function draw() {
    var stored = tablet.round.load();
    var current = tablet.round.current();
    stops.forEach(function (stop) {
      drawStop(stop, current);
    });
    var ticked = stops.filter(function (stop) {
      return current && current.stops[stop.number] && current.stops[stop.number].result;
    });
    progress.textContent = words("progress", { done: ticked.length, all: stops.length });
    awake.hidden = !tablet.isAwake || !tablet.isAwake();
    toSummary.textContent = words(isOnSummary ? "to_stops" : "summary");
    bar.hidden = current === null;
    document.documentElement.classList.toggle("gg-has-roundbar", current !== null);
    page.classList.toggle("gg--summary", isOnSummary && stored !== null);
    drawPanel(stored, current);
    drawSummaryPlace(stored, current);
  }

  function showSummary(isWanted) {
    isOnSummary = isWanted;
    asksAnew = false;
    draw();
    if (isOnSummary && summaryPlace.firstChild) {
      window.scrollTo(0, 0);
      summaryPlace.querySelector("h2").focus({ preventScroll: true });
    }
  }

  stops.forEach(addTicks);
  document.querySelector(".gg-place--round").append(panel);
  page.append(summaryPlace, bar);
  tablet.round.watch(function () {
    draw();
  });
  document.addEventListener("guidegen:awake", draw);
  draw();
  // What was added above has moved the stop that the address names.
  var named = location.hash && document.getElementById(location.hash.slice(1));
  if (named) {
    named.scrollIntoView({ block: "start" });
  }
})();
