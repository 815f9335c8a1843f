// Loading a pack from a page: when it may be done, by what, and what comes of it.
//
// A saved truck is not exchanged while an inspection round of it is under way, or while a page of
// it other than the start page is open in another window.
(function () {
  "use strict";

  const ROUNDS = "guidegen.round.";
  const words = self.guidegenPackWords;

  // root: URL of the site's folder; packs: its store
  self.guidegenPackLoad = function (root, packs) {
    const name = "guidegen " + root.pathname;
    const channel = "BroadcastChannel" in self ? new BroadcastChannel(name) : null;

    function readRound(key) {
      try {
        return JSON.parse(localStorage.getItem(key));
      } catch (fault) {
        return null; // what cannot be read is no round that could go on
      }
    }

    function isRoundOpen(of) {
      return roundKeys().some((key) => {
        const round = readRound(key);
        if (!round || round.open !== true) {
          return false;
        }
        // A round that names no truck counts for all: rather wait once too often.
        const inKey = /^[A-Z0-9]+(?:-[A-Z0-9]+)*/.exec(key.slice(ROUNDS.length));
        const named = round.unit || (inKey ? inKey[0] : "");
        return !named || named === of;
      });
    }

    function roundKeys() {
      try {
        return Object.keys(localStorage).filter((key) => key.startsWith(ROUNDS));
      } catch (fault) {
        return [];
      }
    }

    const taskLock = (of) => "guidegen-task " + root.pathname + of;

    async function isOpenElsewhere(of) {
      if (!navigator.locks) {
        return false;
      }
      const locks = await navigator.locks.query();
      return locks.held.some((lock) => lock.name === taskLock(of));
    }

    // Why the revision of a truck must not change now; empty if it may.
    async function holdsBack(of) {
      if (isRoundOpen(of)) {
        return words.afterRound(of);
      }
      return (await isOpenElsewhere(of)) ? words.inOtherWindow(of) : "";
    }

    async function startWorker() {
      const options = { scope: root.pathname, updateViaCache: "none" };
      const registration = await navigator.serviceWorker.register(new URL("sw.js", root), options);
      const coming = registration.installing || registration.waiting;
      if (registration.active || !coming) {
        return registration;
      }
      await new Promise((done, fail) => {
        function look() {
          if (coming.state === "activated") {
            done();
          } else if (coming.state === "redundant") {
            fail(new Error("the worker was not installed"));
          }
        }
        coming.addEventListener("statechange", look);
        look();
      });
      return registration;
    }

    // Without the worker a pack lies on the tablet and nothing opens it.
    async function hasWorker() {
      const registration = await navigator.serviceWorker.getRegistration(root.href);
      return Boolean(registration && registration.active);
    }

    // Whether the browser promises not to clear saved trucks when room is short.
    async function isKeptForGood() {
      try {
        return await navigator.storage.persisted();
      } catch (fault) {
        return false;
      }
    }

    async function keepForGood() {
      try {
        await navigator.storage.persist();
      } catch (fault) {
        // A browser that cannot promise it saves all the same; the start page says so.
      }
    }

    // A broken pack may be mended at any time, as long as that changes nothing that is read.
    async function isOtherIssue(of, before) {
      try {
        return (await packs.fetchList(of)).id !== before.id;
      } catch (fault) {
        return false; // saving fails for the same reason, and says it
      }
    }

    // Load the newest pack of a truck; on any fault the old one stays. Says whether it is done.
    async function load(of, say, onProgress) {
      const before = await packs.pointer(of).catch(() => null);
      const reason = before ? await holdsBack(of) : "";
      if (reason && (await isOtherIssue(of, before))) {
        say(reason);
        return false;
      }
      try {
        await keepForGood();
        await packs.save(of, onProgress);
      } catch (fault) {
        say(words.fault(of, self.guidegenPackFault(fault), before));
        return false;
      }
      try {
        await startWorker();
      } catch (fault) {
        say(words.withoutApp(of));
        return false;
      }
      if (channel) {
        channel.postMessage({ unit: of });
      }
      return true;
    }

    return {
      holdsBack: holdsBack,
      load: load,
      startWorker: startWorker,
      hasWorker: hasWorker,
      isKeptForGood: isKeptForGood,

      // Say to all windows that a page of the truck is in use, until it is left.
      holdTask(of) {
        if (navigator.locks) {
          navigator.locks.request(taskLock(of), { mode: "shared" }, () => new Promise(() => {}));
        }
      },

      onLoaded(tell) {
        if (channel) {
          channel.addEventListener("message", (event) => tell(event.data.unit));
        }
      },
    };
  };
})();
