// What a driver is told of packs: what happened, whether the saved copy is whole, what to do.
(function () {
  "use strict";

  const day = new Intl.DateTimeFormat("en-US", { month: "short", day: "numeric" });
  const clock = new Intl.DateTimeFormat("en-US", {
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
  });

  function when(iso) {
    const then = new Date(iso);
    const isToday = then.toDateString() === new Date().toDateString();
    return (isToday ? "today" : day.format(then)) + " " + clock.format(then);
  }

  function megabytes(bytes) {
    return (Number(bytes) / 1e6).toFixed(1) + " MB";
  }

  // What stayed as it was, so that nobody wonders what to drive by now.
  function left(unit, kept) {
    return kept
      ? "The copy of " + unit + " that was saved before is whole and still here (revision " +
          kept.revision + ")."
      : unit + " is still not saved.";
  }

  const FAULTS = {
    "no-signal": () => "The signal broke off. Go where there is signal, and tap again.",
    "not-published": (unit) =>
      "The office does not publish " + unit + " any more. Ask the fleet office before you drive.",
    damaged: (unit, fault) =>
      "A file came damaged, or the office is publishing just now (" + fault.detail +
      "). Wait a minute, and tap again. If it comes back, call the fleet office.",
    "no-room": (unit, fault) =>
      "This tablet has no room left" +
      (fault.detail ? " (" + megabytes(fault.detail) + " are needed)" : "") +
      ". Remove another saved truck, or photos and apps, and tap again.",
    refused: () =>
      "This browser does not let the site save anything. Leave the private window, or ask whoever " +
      "looks after the tablets. The other way is a copy on a stick: ask the fleet office.",
    busy: () => "Another window is saving just now. Wait until it is done, and tap again.",
  };

  self.guidegenPackWords = {
    when: when,

    // Unit and revision stand beside it.
    status(state, checked) {
      const parts = state ? [state] : [];
      return parts.concat(checked ? ["checked " + when(checked)] : []).join(" · ");
    },

    READY: "Ready offline",
    NOT_SAVED: "Not saved",
    BROKEN: "Saved pack is broken: save again",
    LOOK: "Ask the office's site again",
    ON_STICK: "Copy from the office: works without signal",
    SAVE: "Save for offline",
    SAVE_AGAIN: "Save again",
    REMOVE: "Remove from this tablet",
    LOAD_LIST: "New list of trucks ready: load it",

    saving: (done, total) => "Saving " + done + " of " + total,

    fault: (unit, fault, kept) =>
      (FAULTS[fault.kind] || FAULTS.refused)(unit, fault) + " " + left(unit, kept),

    whySave: (unit) =>
      "Saved, " + unit + " opens on this tablet where there is no signal. Stay on this page until " +
      "the top says Ready offline.",

    kept: (unit) => unit + " is saved on this tablet and opens where there is no signal.",

    noSignal: "The office's site cannot be reached from here. Go on by what is saved.",

    onStick: "This is a copy. It does not learn of new revisions: ask the fleet office how old it is.",

    broken: (unit) =>
      "Some pages of " + unit + " that were saved are gone or damaged. Where there is signal, tap " +
      "Save again.",

    load: (unit, revision) => "New revision " + revision + " of " + unit + " ready: load it",

    newer: (unit, kept) =>
      "Until you tap, this tablet shows revision " + kept.revision + ", saved " + when(kept.saved) +
      ".",

    afterRound: (unit) =>
      "A new revision of " + unit + " is ready. Finish the inspection round first; it is offered " +
      "here when the round is done.",

    inOtherWindow: (unit) =>
      "A page of " + unit + " is open in another window. Close it first, so that no driver works by " +
      "two revisions.",

    mayBeCleared:
      "The tablet may clear saved trucks when it runs out of room. Put the app on its home screen " +
      "to keep them.",

    withoutApp: (unit) =>
      "The pages of " + unit + " are saved, but the part that opens them without signal is not. " +
      "Stay where there is signal, and tap again.",

    gone: (unit) =>
      "The office does not publish " + unit + " any more. Ask the fleet office whether this copy " +
      "may still be used.",

    insecure:
      "This address begins with http. A tablet can save trucks only from an address that begins " +
      "with https. The other way is a copy on a stick: ask the fleet office.",

    removeSure: (unit) => "Remove the saved copy of " + unit + " from this tablet?",
    removed: (unit) => unit + " is not saved on this tablet any more.",
    lastTruck: "Last truck",
    onTablet: "Saved on this tablet",

    // Title, what happened and what to do, on the page that opens instead of another.
    offline(why, unit) {
      const truck = unit || "this truck";
      if (why === "broken") {
        return [
          "The saved pack of " + truck + " is broken",
          "A page that was saved is gone from this tablet. The pages that are left are of one " +
            "revision; go by the cards in the cab for the rest.",
          "Where there is signal, tap Save again.",
        ];
      }
      if (why === "not-kept") {
        return [
          "This page is not in the saved copy",
          "A saved truck holds its guide. Printed cards and old addresses are not part of it.",
          "Open the start page of " + truck + ", or go where there is signal.",
        ];
      }
      if (why === "no-page") {
        return ["No signal", "This page is not on this tablet.", "Go where there is signal."];
      }
      return [
        "This truck is not saved on this tablet",
        "There is no signal, and this tablet does not keep " + (unit || "it") + ".",
        "Go where there is signal, open the start page of " + truck + ", and tap Save for offline.",
      ];
    },
  };
})();
