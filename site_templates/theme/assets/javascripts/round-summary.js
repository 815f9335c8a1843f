// The summary of a round: truck, guide, times, what was done, found and left open. It is made of what
// is kept on the tablet, also if the guide has changed since; notes are shown as they were typed.
(function () {
  "use strict";

  var tablet = (window.guidegen = window.guidegen || {});
  var words = tablet.words;
  var make = tablet.make;

  function pair(list, term, text) {
    list.append(make("dt", "", term), make("dd", "", text));
  }

  function part(summary, title, entries) {
    summary.append(make("h2", "", title));
    if (!entries.length) {
      summary.append(make("p", "", words("none")));
      return;
    }
    var isShort = entries.every(function (entry) {
      return entry.texts.length === 0;
    });
    var list = make("ul", "gg-summary__list" + (isShort ? " gg-summary__list--short" : ""));
    entries.forEach(function (entry) {
      var line = make("li", "");
      line.append(make("b", "", entry.head));
      entry.texts.forEach(function (text) {
        line.append(make("span", "gg-summary__text", text));
      });
      list.append(line);
    });
    summary.append(list);
  }

  function headed(number, title) {
    return number ? number + " " + title : title;
  }

  // `stops` are those of the page; none if the round is of another edition of the guide.
  tablet.drawSummary = function (state, stops) {
    var summary = make("section", "gg-summary");
    var facts = make("dl", "gg-summary__facts");
    var numbers = Object.keys(state.stops).sort(function (one, other) {
      return Number(one) - Number(other);
    });

    function told(filter) {
      return numbers
        .filter(function (number) {
          return filter(state.stops[number]);
        })
        .map(function (number) {
          var stop = state.stops[number];
          var note = String(stop.note || "").trim();
          var texts = note ? [note] : stop.result === "found" ? [words("no_note")] : [];
          return { head: headed(number, String(stop.title)), texts: texts };
        });
    }

    var found = told(function (stop) {
      return stop.result === "found" || (stop.result && String(stop.note || "").trim());
    });
    var done = told(function (stop) {
      return stop.result === "done";
    });
    pair(facts, words("truck"), tablet.round.unit);
    pair(facts, words("revision"), String(state.revision || state.edition));
    pair(facts, words("begun"), tablet.when(state.begun));
    pair(facts, words("ended"), state.ended ? tablet.when(state.ended) : words("not_ended"));
    var heading = make("h1", "", words("summary"));
    heading.tabIndex = -1;
    summary.append(
      heading,
      make("p", "gg-summary__limits", words("no_report")),
      make("p", "gg-summary__limits", words("not_sent")),
      facts
    );
    part(summary, words("stops_found", { count: found.length }), found);
    part(
      summary,
      words("times"),
      Object.keys(state.times).map(function (id) {
        var time = state.times[id];
        return { head: headed(time.stop, String(time.title)), texts: [String(time.said)] };
      })
    );
    if (stops) {
      var open = stops.filter(function (stop) {
        return !(state.stops[stop.number] && state.stops[stop.number].result);
      });
      part(
        summary,
        words("stops_open", { count: open.length }),
        open.map(function (stop) {
          return { head: headed(stop.number, stop.title), texts: [] };
        })
      );
    }
    part(
      summary,
      words("stops_done", { count: done.length }),
      done.map(function (entry) {
        return { head: entry.head, texts: [] };
      })
    );
    return summary;
  };
})();
