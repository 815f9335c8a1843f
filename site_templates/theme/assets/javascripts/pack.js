// Saving trucks, from the pages. Every page reads the same without it.
//
// A new revision is offered only on a start page and on the list of trucks, and loaded after a tap.
(function () {
  "use strict";

  const ROOT = new URL("../../", document.currentScript.src);
  const words = self.guidegenPackWords;
  const packs = self.guidegenPacks(ROOT);
  const loader = self.guidegenPackLoad(ROOT, packs);
  const guide = document.querySelector("[data-guide]");
  const unit = guide ? guide.dataset.guide : "";
  const isStart = unit !== "" && guide.dataset.page === "start";
  const finder = document.querySelector("[data-find-form]");
  const offline = document.querySelector("[data-pack-offline]");
  const badge = document.querySelector("[data-pack-status]");
  const canSave =
    self.isSecureContext && "serviceWorker" in navigator && "caches" in self && !!crypto.subtle;

  function make(tag, className, text) {
    const element = document.createElement(tag);
    element.className = className;
    element.textContent = text || "";
    return element;
  }

  function button(text, onTap, isQuiet) {
    const made = make("button", isQuiet ? "gg-keep__quiet" : "gg-keep__button", text);
    made.type = "button";
    made.addEventListener("click", onTap);
    return made;
  }

  // On top of the page: what is said, and what can be done about it.
  function panel(before) {
    const section = make("section", "gg-keep");
    const say = make("p", "gg-keep__say");
    const does = make("div", "gg-keep__does");
    say.setAttribute("role", "status");
    section.append(say, does);
    before(section);
    return {
      show(text, ...buttons) {
        say.textContent = text;
        say.hidden = !text;
        const isSame =
          buttons.length > 0 &&
          buttons.length === does.children.length &&
          buttons.every((made, index) => made.isEqualNode(does.children[index]));
        if (!isSame) {
          does.replaceChildren(...buttons); // not under a finger: a tap on what goes is lost
        }
        section.hidden = !text && buttons.length === 0;
      },
    };
  }

  // Room is kept for it on the page, so that nothing moves when it is known what to say.
  const intoPlace = (section) => guide.querySelector(".gg-place--keep").append(section);

  function showBadge(state, checked, tone) {
    if (badge) {
      badge.textContent = words.status(state, checked);
      badge.className = "gg-pack gg-pack--" + tone;
      badge.hidden = !badge.textContent;
    }
  }

  // What a start page offers.
  async function runStart() {
    const shown = panel(intoPlace);
    const below = panel((section) => guide.append(section)); // far from what is tapped every day
    let told = "";
    let isSaving = false;
    let looks = 0;

    function say(text) {
      told = text;
    }

    async function save() {
      isSaving = true;
      shown.show(words.whySave(unit));
      showBadge(words.saving(0, "…"), "", "busy");
      const isDone = await loader.load(unit, say, (done, total) =>
        showBadge(words.saving(done, total), "", "busy")
      );
      if (isDone) {
        location.reload();
        return;
      }
      isSaving = false;
      await show();
    }

    async function remove() {
      if (!self.confirm(words.removeSure(unit))) {
        return;
      }
      await packs.remove(unit).then(
        () => say(words.removed(unit)),
        (fault) => say(words.fault(unit, self.guidegenPackFault(fault), null))
      );
      await show();
    }

    async function look() {
      await packs.check(unit).catch((fault) =>
        say(fault.kind === "not-published" ? words.gone(unit) : words.noSignal)
      );
      await show();
    }

    async function show() {
      looks += 1;
      const turn = looks;
      const state = await standing().catch(() => ({ kept: null, isSound: false }));
      const hasWorker = await loader.hasWorker().catch(() => false);
      const isSafe = await loader.isKeptForGood();
      const offer = state.newest && state.kept && state.newest.id !== state.kept.id;
      const reason = offer ? await loader.holdsBack(unit) : "";
      if (isSaving || turn !== looks) {
        return state; // a look that ends late must not talk over what has been done since
      }
      below.show("");
      if (state.kept && !hasWorker) {
        showBadge(words.NOT_SAVED, state.checked, "none");
        shown.show(told || words.withoutApp(unit), button(words.SAVE_AGAIN, save));
      } else if (!state.kept) {
        showBadge(words.NOT_SAVED, "", "none");
        shown.show(told || words.whySave(unit), button(words.SAVE, save));
      } else if (!state.isSound) {
        showBadge(words.BROKEN, state.checked, "broken");
        shown.show(told || words.broken(unit), button(words.SAVE_AGAIN, save));
      } else {
        showBadge(words.READY, state.checked, "ready");
        const does = offer && !reason ? [button(words.load(unit, state.newest.revision), save)] : [];
        if (!offer) {
          does.push(button(words.LOOK, look, true));
        }
        shown.show(told || (offer ? reason || words.newer(unit, state.kept) : words.kept(unit)), ...does);
        below.show(isSafe ? "" : words.mayBeCleared, button(words.REMOVE, remove, true));
      }
      told = "";
      return state;
    }

    async function standing() {
      const kept = await packs.pointer(unit);
      const isSound = kept !== null && (await packs.faults(kept)).length === 0;
      const check = kept && (await packs.lastCheck(unit));
      return { kept: kept, isSound: isSound, checked: check && check.at, newest: check };
    }

    if (await packs.pointer(unit).catch(() => null)) {
      await loader.startWorker().catch(() => null);
    }
    const state = await show();
    if (state.kept) {
      await packs.check(unit).catch((fault) => {
        if (fault.kind === "not-published") {
          say(words.gone(unit));
        }
      });
      await show();
    }
  }

  // What any other page of a truck says: nothing is offered there.
  async function runTaskPage() {
    loader.holdTask(unit);
    const kept = await packs.pointer(unit);
    if (!kept || !(await loader.hasWorker())) {
      showBadge(words.NOT_SAVED, "", "none");
      return;
    }
    const check = await packs.lastCheck(unit);
    const isComplete = await packs.isComplete(kept);
    const state = isComplete ? words.READY : words.BROKEN;
    showBadge(state, check && check.at, isComplete ? "ready" : "broken");
  }

  // What the list of trucks offers: the last truck first, and new revisions of all saved ones.
  async function runFinder(registration) {
    const kept = await packs.saved();
    const shown = panel((section) => finder.before(section));
    const last = await packs.last();
    if (last) {
      const row = make("a", "gg-row gg-keep__last");
      row.href = new URL(last.unit + "/index.html", ROOT).href;
      row.append(make("b", "", last.unit), make("span", "", words.lastTruck));
      finder.before(row);
    }
    kept.forEach((pack) => {
      const entry = document.querySelector('[data-unit="' + pack.unit + '"] .gg-row span');
      if (entry) {
        entry.append(document.createElement("br"), make("b", "gg-kept", words.onTablet));
      }
    });

    let told = "";

    async function show() {
      const does = [];
      const reasons = [];
      for (const pack of await packs.saved()) {
        const check = await packs.lastCheck(pack.unit);
        if (check && check.id !== pack.id) {
          const reason = await loader.holdsBack(pack.unit);
          if (reason) {
            reasons.push(reason);
          } else {
            does.push(button(words.load(pack.unit, check.revision), () => loadTruck(pack.unit)));
          }
        }
      }
      if (registration && registration.waiting) {
        does.push(button(words.LOAD_LIST, loadList));
      }
      shown.show(told || reasons.join(" "), ...does);
    }

    async function loadTruck(of) {
      let outcome = of + ": " + words.READY;
      await loader.load(of, (text) => (outcome = text), (done, total) =>
        shown.show(of + ": " + words.saving(done, total))
      );
      told = outcome; // stays, whatever else is found out later
      await show();
    }

    function loadList() {
      const coming = registration.waiting;
      navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
      if (coming) {
        coming.postMessage("take-over");
      }
    }

    if (registration) {
      registration.addEventListener("updatefound", () => {
        const coming = registration.installing;
        coming.addEventListener("statechange", () => show());
      });
    }
    await show();
    for (const pack of kept) {
      await packs.check(pack.unit).catch(() => {});
    }
    await show();
  }

  // What opens instead of a page that neither network nor tablet has.
  async function runOffline() {
    const asked = new URLSearchParams(location.search);
    const of = /^[A-Z0-9-]*$/.test(asked.get("unit") || "") ? asked.get("unit") || "" : "";
    const [title, what, todo] = words.offline(asked.get("why") || "", of);
    offline.querySelector("[data-pack-offline-title]").textContent = title;
    offline.querySelector("[data-pack-offline-what]").textContent = what;
    offline.querySelector("[data-pack-offline-do]").textContent = todo;
    if (!canSave) {
      return;
    }
    const kept = await packs.saved();
    const list = offline.querySelector("[data-pack-saved]");
    kept.forEach((pack) => {
      const row = make("a", "gg-row", pack.unit);
      row.href = new URL(pack.unit + "/index.html", ROOT).href;
      const item = make("li", "");
      item.append(row);
      list.append(item);
    });
    offline.querySelector("[data-pack-none]").hidden = kept.length > 0;
    if (of && asked.get("why") === "broken") {
      const shown = panel((section) => offline.querySelector("[data-pack-actions]").append(section));
      const again = button(words.SAVE_AGAIN, async () => {
        let told = "";
        const isDone = await loader.load(of, (text) => (told = text), (done, total) =>
          shown.show(words.saving(done, total))
        );
        if (isDone) {
          location.replace(new URL(asked.get("page") || of + "/index.html", ROOT).href);
        } else {
          shown.show(told, again);
        }
      });
      shown.show("", again);
    }
  }

  function linkManifest() {
    const link = document.createElement("link");
    link.rel = "manifest";
    link.href = new URL("app.webmanifest", ROOT).href;
    document.head.append(link);
  }

  async function run() {
    if (unit) {
      showBadge("", "", "none"); // at once, so that nothing moves when more is known
    }
    if (location.protocol === "file:") {
      if (unit) {
        showBadge(words.ON_STICK, "", "ready");
      }
      if (isStart) {
        panel(intoPlace).show(words.onStick);
      }
      return;
    }
    linkManifest();
    if (!canSave) {
      if (unit) {
        showBadge(words.NOT_SAVED, "", "none");
      }
      if (isStart) {
        panel(intoPlace).show(
          self.isSecureContext ? words.fault(unit, { kind: "refused" }, null) : words.insecure
        );
      }
      return;
    }
    if (offline) {
      await runOffline();
      return;
    }
    if (unit) {
      const kept = await packs.pointer(unit).catch(() => null);
      if (kept) {
        await packs.setLast(unit).catch(() => {});
      }
      await (isStart ? runStart() : runTaskPage());
    }
    if (isStart || finder) {
      await packs.sweep().catch(() => 0);
      const isApp = self.matchMedia("(display-mode: standalone)").matches;
      const isUsed = isApp || (await packs.saved().catch(() => [])).length > 0;
      const registration = isUsed ? await loader.startWorker().catch(() => null) : null;
      if (finder) {
        await runFinder(registration);
      }
    }
  }

  // Another window has changed what is kept of this truck: nothing of the old must go on.
  loader.onLoaded((of) => {
    if (unit && of === unit) {
      location.reload();
    }
  });
  run().catch(() => {
    // Storage that refuses even to be read: nothing is saved, and the page reads as it is.
    if (unit) {
      showBadge(words.NOT_SAVED, "", "none");
    }
  });
})();
