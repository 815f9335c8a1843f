// What this tablet keeps of each truck: one pack, whole or not at all.
//
// The same script runs in pages and, put into it when the site is built, in the service worker.
// A pack lies in a cache of its own. What makes it the truck's pack is one small entry, the
// pointer, which is written when every file has been checked against its SHA-256 hash, and not
// before. Whatever breaks on the way leaves the old pack as it was; a cache that no pointer names
// is swept away at the next start.
(function (scope) {
  "use strict";

  const FORMAT = 1;
  const AT_A_TIME = 4;
  const PATIENCE = 60000; // milliseconds for one file; a yard's edge is slow, not dead
  const SPARE = 1.1; // a browser needs somewhat more room than the bytes of a pack
  const WRITING = "guidegen-pack-writing";
  const SWEEPING = "guidegen-pack-sweeping";

  class PackFault extends Error {
    // kind: "no-signal", "not-published", "damaged", "no-room", "refused" or "busy"
    constructor(kind, detail) {
      super(kind + (detail ? ": " + detail : ""));
      this.kind = kind;
      this.detail = detail || "";
    }
  }

  function named(fault) {
    if (fault instanceof PackFault) {
      return fault;
    }
    const name = fault && fault.name;
    if (name === "QuotaExceededError") {
      return new PackFault("no-room");
    }
    return new PackFault("refused", String((fault && fault.message) || fault));
  }

  async function sha256(bytes) {
    const digest = await crypto.subtle.digest("SHA-256", bytes);
    return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  async function idOf(files) {
    const lines = files.map((file) => file.sha256 + "  " + file.path + "\n").join("");
    return sha256(new TextEncoder().encode(lines));
  }

  async function inPool(things, work) {
    const waiting = things.slice();
    async function take() {
      while (waiting.length) {
        try {
          await work(waiting.shift());
        } catch (fault) {
          waiting.length = 0; // the others come to their end, and nothing more is begun
          throw fault;
        }
      }
    }
    await Promise.all(Array.from({ length: AT_A_TIME }, take));
  }

  // Two windows must not write at once. A writer waits for a sweep, which takes a moment, ...
  function whileAlone(work) {
    const locks = scope.navigator && scope.navigator.locks;
    if (!locks) {
      return work();
    }
    const busy = () => Promise.reject(new PackFault("busy"));
    return locks.request(SWEEPING, { mode: "shared" }, () =>
      locks.request(WRITING, { ifAvailable: true }, (lock) => (lock ? work() : busy()))
    );
  }

  // ... and a sweep does not come about while one writes: the next start sweeps.
  function whileNobodyWrites(work) {
    const locks = scope.navigator && scope.navigator.locks;
    if (!locks) {
      return work();
    }
    return locks.request(SWEEPING, { ifAvailable: true }, (lock) => (lock ? work() : 0));
  }

  // root: URL of the folder in which the site stands, with a slash at its end
  function openPacks(root) {
    const prefix = "guidegen " + root.pathname + " ";
    const packPrefix = prefix + "pack ";
    const shellPrefix = prefix + "shell ";
    const pointers = prefix + "pointers";

    const urlOf = (path) => new URL(path, root).href;
    const entry = (kind, unit) => urlOf("kept/" + kind + "/" + unit);

    async function readEntry(url) {
      const found = await caches.match(url, { cacheName: pointers });
      try {
        return found ? await found.json() : null;
      } catch (fault) {
        return null;
      }
    }

    async function writeEntry(url, value) {
      const cache = await caches.open(pointers);
      const headers = { "Content-Type": "application/json" };
      await cache.put(url, new Response(JSON.stringify(value), { headers }));
    }

    async function pointer(unit) {
      const found = await readEntry(entry("pack", unit));
      return found && found.format === FORMAT ? found : null;
    }

    // Every saved truck, in the order of their numbers.
    async function saved() {
      if (!(await caches.has(pointers))) {
        return [];
      }
      const cache = await caches.open(pointers);
      const start = entry("pack", "");
      const keys = (await cache.keys()).map((request) => request.url);
      const units = keys.filter((url) => url.startsWith(start)).map((url) => url.slice(start.length));
      const found = await Promise.all(units.map(decodeURIComponent).map(pointer));
      const inOrder = new Intl.Collator("en", { numeric: true });
      return found.filter(Boolean).sort((one, other) => inOrder.compare(one.unit, other.unit));
    }

    async function ask(path) {
      const patience = new AbortController();
      const timer = setTimeout(() => patience.abort(), PATIENCE);
      try {
        const options = { cache: "no-store", credentials: "same-origin", signal: patience.signal };
        const response = await fetch(urlOf(path), options);
        // Read to the end within the same patience: headers can come where the rest does not.
        return { response: response, bytes: await response.arrayBuffer() };
      } catch (fault) {
        throw new PackFault("no-signal", path);
      } finally {
        clearTimeout(timer);
      }
    }

    async function fetchList(unit) {
      const path = unit ? unit + "/pack.json" : "pack.json";
      const answer = await ask(path);
      if (answer.response.status === 404 || answer.response.status === 410) {
        throw new PackFault("not-published", path);
      }
      if (!answer.response.ok) {
        throw new PackFault("no-signal", path + " " + answer.response.status);
      }
      let list;
      try {
        list = JSON.parse(new TextDecoder().decode(answer.bytes));
      } catch (fault) {
        throw new PackFault("damaged", path);
      }
      const isList = list && list.format === FORMAT && list.unit === unit && Array.isArray(list.files);
      if (!isList || (await idOf(list.files)) !== list.id) {
        throw new PackFault("damaged", path);
      }
      return list;
    }

    async function isSound(file, bytes) {
      return bytes.byteLength === file.bytes && (await sha256(bytes)) === file.sha256;
    }

    // The same file of the pack that is replaced saves the driver's data; it is checked alike.
    async function fromOld(before, file) {
      const known = before && before.files.find((each) => each.path === file.path);
      if (!known || known.sha256 !== file.sha256) {
        return null;
      }
      const found = await caches.match(urlOf(file.path), { cacheName: before.cache });
      if (!found) {
        return null;
      }
      const bytes = await found.clone().arrayBuffer();
      return (await isSound(file, bytes)) ? { bytes: bytes, response: found } : null;
    }

    async function download(file) {
      const answer = await ask(file.path);
      if (answer.response.status >= 500) {
        throw new PackFault("no-signal", file.path + " " + answer.response.status);
      }
      if (!answer.response.ok || !(await isSound(file, answer.bytes))) {
        throw new PackFault("damaged", file.path);
      }
      return answer;
    }

    async function fill(cacheName, list, before, onProgress) {
      const cache = await caches.open(cacheName);
      let done = 0;
      let isOver = false;
      onProgress(done, list.files.length);
      const filling = inPool(list.files, async (file) => {
        const got = (await fromOld(before, file)) || (await download(file));
        const type = got.response.headers.get("Content-Type") || "application/octet-stream";
        // A response of our own: nothing of how it was sent is kept, only what was checked.
        await cache.put(
          urlOf(file.path),
          new Response(got.bytes, { headers: { "Content-Type": type } })
        );
        done += 1;
        if (!isOver) {
          onProgress(done, list.files.length);
        }
      });
      await filling.finally(() => (isOver = true)); // a late file must not talk over what is said
      const bad = await faultsIn(cacheName, list.files);
      if (bad.length) {
        throw new PackFault("damaged", bad[0]);
      }
    }

    // Paths of the files that a cache lacks or holds otherwise than the list states.
    async function faultsIn(cacheName, files) {
      const bad = [];
      await inPool(files, async (file) => {
        const found = await caches.match(urlOf(file.path), { cacheName: cacheName });
        if (!found || !(await isSound(file, await found.arrayBuffer()))) {
          bad.push(file.path);
        }
      });
      return bad;
    }

    async function lookForRoom(list) {
      const storage = scope.navigator && scope.navigator.storage;
      const room = storage && storage.estimate ? await storage.estimate() : {};
      if (room.quota && room.quota - (room.usage || 0) < list.bytes * SPARE) {
        throw new PackFault("no-room", String(list.bytes));
      }
    }

    async function dropQuietly(cacheName) {
      try {
        await caches.delete(cacheName);
      } catch (fault) {
        // Swept at the next start.
      }
    }

    async function replace(unit, onProgress) {
      let fresh = "";
      try {
        const before = await pointer(unit);
        const list = await fetchList(unit);
        await lookForRoom(list);
        const nonce = Date.now().toString(36) + Math.random().toString(36).slice(2, 8);
        fresh = packPrefix + unit + " " + list.id.slice(0, 16) + " " + nonce;
        await fill(fresh, list, before, onProgress);
        const now = {
          format: FORMAT,
          unit: unit,
          revision: list.revision,
          id: list.id,
          cache: fresh,
          saved: new Date().toISOString(),
          files: list.files,
        };
        await writeEntry(entry("pack", unit), now);
        fresh = "";
        if (before) {
          await dropQuietly(before.cache);
        }
        await note(unit, list).catch(() => {});
        return now;
      } catch (fault) {
        if (fresh) {
          await dropQuietly(fresh);
        }
        throw named(fault);
      }
    }

    function note(unit, list) {
      const value = { at: new Date().toISOString(), id: list.id, revision: list.revision };
      return writeEntry(entry("check", unit), value);
    }

    return {
      pointer: pointer,
      saved: saved,
      fetchList: fetchList,

      // Save a truck, or put its newest revision in the place of the saved one.
      save: (unit, onProgress) =>
        whileAlone(() => replace(unit, onProgress || (() => {}))),

      // Ask the office's site which revision is the newest; fails without signal.
      async check(unit) {
        const list = await fetchList(unit);
        await note(unit, list);
        return list;
      },

      lastCheck: (unit) => readEntry(entry("check", unit)),

      faults: (kept) => faultsIn(kept.cache, kept.files),

      // Whether all files are there; what is in them is looked at by `faults`.
      async isComplete(kept) {
        if (!(await caches.has(kept.cache))) {
          return false;
        }
        const there = await (await caches.open(kept.cache)).keys();
        return there.length === kept.files.length;
      },

      file: (kept, path) =>
        caches.match(urlOf(path), { cacheName: kept.cache, ignoreVary: true }),

      lists: (kept, path) => kept.files.some((file) => file.path === path),

      remove: (unit) =>
        whileAlone(async () => {
          const kept = await pointer(unit);
          const cache = await caches.open(pointers);
          await cache.delete(entry("pack", unit));
          await cache.delete(entry("check", unit));
          if (kept) {
            await dropQuietly(kept.cache);
          }
        }),

      // Clear away what broken downloads have left.
      sweep: () =>
        whileNobodyWrites(async () => {
          const named = new Set((await saved()).map((kept) => kept.cache));
          const left = (await caches.keys()).filter(
            (name) => name.startsWith(packPrefix) && !named.has(name)
          );
          await Promise.all(left.map(dropQuietly));
          return left.length;
        }),

      async last() {
        const found = await readEntry(entry("last", ""));
        return found && (await pointer(found.unit));
      },

      setLast: (unit) => writeEntry(entry("last", ""), { unit: unit }),

      // The fleet's own pages. Their cache goes by their id, and a worker knows only its own.
      shell: (id) => ({ cache: shellPrefix + id }),

      async saveShell(id) {
        const list = await fetchList("");
        if (list.id !== id) {
          throw new PackFault("damaged", "pack.json");
        }
        try {
          await fill(shellPrefix + id, list, null, () => {});
        } catch (fault) {
          throw named(fault);
        }
      },

      async dropOtherShells(id) {
        const names = (await caches.keys()).filter((name) => name.startsWith(shellPrefix));
        await Promise.all(names.filter((name) => name !== shellPrefix + id).map(dropQuietly));
      },
    };
  }

  scope.guidegenPacks = openPacks;
  scope.guidegenPackFault = named;
})(self);
