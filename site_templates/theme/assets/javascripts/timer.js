// Makes the timers of a page run. What each measures, and its limits, stand on the page already;
// seconds come from `data-seconds`, other limits from the first amount that is printed.
// No measure is ever converted here.
(function () {
  "use strict";

  var tablet = window.guidegen;
  if (!tablet || !tablet.hasWords("start")) {
    return;
  }
  var words = tablet.words;
  var MOST_DRIFT = 1500; // milliseconds by which the two clocks may part before neither is believed
  var MOST_LATE = 20; // tenths of a second, after which a reading is of a longer time
  var EVERY = 100;
  var NO_BREAK = "\u00a0";

  function spelled(tenths) {
    var minutes = Math.floor(tenths / 600);
    var seconds = ((tenths - minutes * 600) / 10).toFixed(1);
    var key = minutes > 0 ? "minutes" : "seconds";
    return words(key, { minutes: minutes, seconds: seconds }).replace(/ /g, NO_BREAK);
  }

  // Digits on the running timer: 0:38.2
  function digits(tenths) {
    var minutes = Math.floor(tenths / 600);
    var seconds = ((tenths - minutes * 600) / 10).toFixed(1);
    return minutes + ":" + (seconds.length < 4 ? "0" : "") + seconds;
  }

  function readLine(line) {
    var value = line.querySelector("[data-fact]");
    var heads = line.querySelectorAll("[data-timer-word]");
    var rig = heads.length > 1 ? heads[0] : null;
    var printed = value ? value.textContent.trim() : "";
    var amount = /^([0-9][0-9,]*(?:\.[0-9]+)?)\s*([^()]*)/.exec(printed);
    return {
      bound: line.dataset.timerLine.split(".")[0],
      seconds: line.dataset.seconds ? Number(line.dataset.seconds) : null,
      printed: printed,
      amount: amount ? Number(amount[1].replace(/,/g, "")) : null,
      measure: amount ? amount[2].trim() : "",
      rig: rig ? rig.textContent.trim() : "",
    };
  }

  function startTimer(timer) {
    var id = timer.dataset.timer;
    var isCountdown = timer.dataset.timerKind === "countdown";
    var lines = Array.from(timer.querySelectorAll("[data-timer-line]"), readLine);
    var limits = lines.filter(function (line) {
      return line.bound !== "time" && line.bound !== "no_limit";
    });
    var time = lines.find(function (line) {
      return line.bound === "time";
    });
    var reads = Boolean(timer.dataset.timerReading);
    var run = null; // {steady, wall} at its start
    var ticking = null;
    var taken = ""; // how long it ran, once it has ended
    var rigChosen = null;

    var box = tablet.madeByScript(tablet.make("div", "gg-timer__works"));
    var shown = tablet.make("p", "gg-timer__digits", digits(isCountdown ? time.seconds * 10 : 0));
    shown.setAttribute("role", "timer");
    var start = tablet.button("gg-tap gg-tap--go", words("start"), begin);
    var stop = tablet.button("gg-tap gg-tap--stop", words("stop"), end);
    var buttons = tablet.make("div", "gg-taps");
    var said = tablet.make("p", "gg-timer__said");
    var kept = tablet.make("p", "gg-timer__kept");
    var entry = tablet.make("div", "gg-entry");
    said.setAttribute("role", "status");
    stop.hidden = true;
    entry.hidden = true;
    buttons.append(start, stop);
    box.append(shown, buttons, said, kept, entry);
    timer.append(box);

    // A mark for this tab only: a page that comes back and finds it was left while it ran.
    function mark(isRunning) {
      try {
        var key = "guidegen.timer." + tablet.round.unit + "." + id;
        if (isRunning === undefined) {
          return window.sessionStorage.getItem(key) !== null;
        }
        if (isRunning) {
          window.sessionStorage.setItem(key, "1");
        } else {
          window.sessionStorage.removeItem(key);
        }
      } catch (fault) {
        // Without storage nothing tells of it after a reload, and the timer stands at its start.
      }
      return false;
    }

    function say(text, verdict) {
      said.textContent = text;
      said.className = "gg-timer__said" + (verdict ? " gg-timer__said--" + verdict : "");
      kept.textContent = "";
    }

    function keep(text) {
      var heading = timer.closest("[data-procedure]");
      var number = timer.closest("[data-step]").querySelector("[data-number]").textContent;
      var title = heading.querySelector("[data-text]").textContent.trim();
      var stopNumber = null;
      tablet.round.change(function (state) {
        var own = state.places[heading.dataset.procedure] || [];
        stopNumber = own.includes(state.at) ? state.at : own.length ? own[0] : null;
        state.times[id] = {
          stop: stopNumber,
          title: words("step", { title: title, number: number.trim() }),
          said: text,
          time: new Date().toISOString(),
        };
      });
      if (!tablet.round.current()) {
        kept.textContent = words("not_kept");
      } else if (!tablet.round.canKeep()) {
        kept.textContent = words("keeps_nothing");
      } else {
        kept.textContent = words(stopNumber ? "kept" : "kept_aside", { number: stopNumber });
      }
    }

    function tell(text, verdict) {
      say(text, verdict);
      keep(text);
    }

    function elapsed() {
      return performance.now() - run.steady;
    }

    function hasDrifted() {
      return Math.abs(Date.now() - run.wall - elapsed()) > MOST_DRIFT;
    }

    function draw() {
      var tenths = Math.floor(Math.round(elapsed()) / 100);
      if (!isCountdown) {
        shown.textContent = digits(tenths);
      } else if (elapsed() >= time.seconds * 1000) {
        finish();
      } else {
        shown.textContent = digits(time.seconds * 10 - tenths);
      }
    }

    function begin() {
      tablet.prepareSignal();
      run = { steady: performance.now(), wall: Date.now() };
      clearInterval(ticking);
      ticking = setInterval(draw, EVERY);
      mark(true);
      entry.hidden = true;
      start.hidden = true;
      stop.hidden = false;
      box.classList.add("gg-timer__works--running");
      say(words("running"));
      draw();
      stop.focus({ preventScroll: true });
    }

    // Returns whether the time can be believed.
    function halt() {
      clearInterval(ticking);
      mark(false);
      start.hidden = false;
      start.textContent = words("start_anew");
      stop.hidden = true;
      box.classList.remove("gg-timer__works--running");
      start.focus({ preventScroll: true });
      if (hasDrifted()) {
        shown.textContent = digits(isCountdown ? time.seconds * 10 : 0);
        say(words("slept"), "over");
        return false;
      }
      return true;
    }

    function end() {
      var milliseconds = Math.round(elapsed());
      if (isCountdown && milliseconds >= time.seconds * 1000) {
        finish();
      } else if (!halt()) {
        return;
      } else if (isCountdown) {
        shown.textContent = digits(time.seconds * 10);
        say(words("stopped_early"));
      } else {
        judgeTime(milliseconds);
      }
    }

    function finish() {
      if (!halt()) {
        return;
      }
      shown.textContent = digits(0);
      var late = Math.floor((Math.round(elapsed()) - time.seconds * 1000) / 100);
      taken = time.printed;
      if (late < MOST_LATE) {
        say(words("time_is_up"));
        tablet.giveSignal();
      } else {
        say(words(reads ? "was_up_unread" : "was_up", { late: spelled(late) }));
      }
      if (reads && late < MOST_LATE) {
        openEntry();
      } else if (!reads) {
        keep(words("time_kept", { time: time.printed }));
      }
    }

    // What is shown is what is judged: rounded to tenths, to the side that passes less.
    function judgeTime(milliseconds) {
      var limit = limits[0];
      var isLeast = limit && limit.bound === "at_least";
      var tenths = isLeast ? Math.floor(milliseconds / 100) : Math.ceil(milliseconds / 100);
      var value = spelled(tenths);
      shown.textContent = digits(tenths);
      if (reads) {
        taken = value;
        say(value);
        openEntry();
      } else if (!limit) {
        tell(words("measured", { value: value }));
      } else if (limit.bound === "usual" || limit.seconds === null) {
        tell(words("usual_time", { value: value, limit: limit.printed }));
      } else {
        var most = limit.seconds * 10;
        var isGood = isLeast
          ? tenths >= most
          : limit.bound === "less_than"
            ? tenths < most
            : tenths <= most;
        var key = isGood ? "within_time" : isLeast ? "under_time" : "over_time";
        var values = { value: value, limit: limit.printed };
        tell(words(key, values), isGood ? "within" : "over");
      }
    }

    // The fall that the driver reads, on keys that a glove finds.
    var typed = tablet.make("input", "gg-entry__typed");
    var rigs = tablet.make("div", "gg-taps");

    function makeEntry() {
      var label = tablet.make("label", "gg-entry__label");
      var measure = limits.length ? limits[0].measure : "";
      label.append(
        tablet.make("span", "", words("enter_fall")),
        tablet.make("b", "", measure ? " " + words("in_measure", { measure: measure }) : "")
      );
      typed.type = "text";
      typed.inputMode = "none";
      typed.autocomplete = "off";
      typed.maxLength = 6;
      label.append(typed);
      var keys = tablet.make("div", "gg-keys");
      var asked = tablet.make("div", "gg-entry__asked");
      ["1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "0"].forEach(function (sign) {
        keys.append(
          tablet.button("gg-tap gg-key__sign", sign, function () {
            if (typed.value.length < typed.maxLength) {
              typed.value += sign;
            }
          })
        );
      });
      keys.append(
        tablet.button("gg-tap gg-key__sign", words("erase"), function () {
          typed.value = typed.value.slice(0, -1);
        })
      );
      typed.addEventListener("keydown", function (event) {
        if (event.key === "Enter") {
          event.preventDefault();
          judgeReading();
        }
      });
      if (limits.length > 1) {
        var which = tablet.make("p", "gg-entry__which", words("which_rig"));
        which.id = id + ".rig";
        rigs.setAttribute("role", "group");
        rigs.setAttribute("aria-labelledby", which.id);
        limits.forEach(function (limit) {
          var button = tablet.button("gg-tap", limit.rig.replace(/:$/, ""), function () {
            rigChosen = limit;
            Array.from(rigs.children).forEach(function (other) {
              other.setAttribute("aria-pressed", String(other === button));
            });
          });
          button.setAttribute("aria-pressed", "false");
          rigs.append(button);
        });
        asked.append(which, rigs);
      }
      asked.append(label, tablet.button("gg-tap gg-tap--go", words("judge"), judgeReading));
      entry.append(asked, keys);
    }

    function openEntry() {
      typed.value = "";
      rigChosen = limits.length === 1 ? limits[0] : null;
      Array.from(rigs.children).forEach(function (button) {
        button.setAttribute("aria-pressed", "false");
      });
      entry.hidden = false;
      entry.scrollIntoView({ block: "nearest" });
      typed.focus({ preventScroll: true });
    }

    function judgeReading() {
      if (!/^[0-9]{1,4}(\.[0-9]{1,2})?$|^\.[0-9]{1,2}$/.test(typed.value.trim())) {
        say(words("not_a_number"));
        typed.focus({ preventScroll: true });
        return;
      }
      if (limits.length && !rigChosen) {
        say(words("choose_rig"));
        rigs.querySelector("button").focus({ preventScroll: true });
        return;
      }
      var number = Number(typed.value.trim());
      var limit = rigChosen;
      var value = (String(number) + " " + (limit ? limit.measure : "")).trim();
      value = value.replace(/ /g, NO_BREAK);
      if (!limit || limit.amount === null) {
        tell(words("measured", { value: value + " / " + taken }));
      } else {
        var isGood = limit.bound === "less_than" ? number < limit.amount : number <= limit.amount;
        var values = {
          value: value,
          time: taken,
          rig: limit.rig,
          limit: limit.printed,
        };
        var key = limit.bound + (isGood ? "_in_order" : "_too_much");
        tell(words(key, values).trim(), isGood ? "within" : "over");
      }
      said.scrollIntoView({ block: "nearest" });
    }

    if (reads) {
      makeEntry();
    }
    document.addEventListener("visibilitychange", function () {
      if (run && !stop.hidden && document.visibilityState === "visible") {
        draw();
      }
    });
    if (mark()) {
      mark(false);
      say(words("interrupted"), "over");
    }
  }

  document.querySelectorAll("[data-timer]").forEach(startTimer);
})();
