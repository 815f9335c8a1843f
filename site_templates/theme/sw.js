// Answers for the site where there is no signal.
//
// A saved truck is a closed world: its pages, and all that they load, come from its own pack and
// from nowhere else, so that no page ever meets the style of another revision or truck. A truck
// that is not saved comes from the network, whole. The fleet's own pages come from the cache that
// was filled when this worker was installed. guidegen puts the store of packs and the id of those
// pages into this file, so that it is another one whenever they are.
/* @@guidegen-pack-store@@ */
(function () {
  "use strict";

  const SHELL = "@@guidegen-shell@@";
  const ROOT = new URL(self.registration.scope);
  const OFFLINE = "offline.html";
  const UNIT = /^([A-Z0-9]+(?:-[A-Z0-9]+)*)\//;
  const packs = self.guidegenPacks(ROOT);
  const shell = packs.shell(SHELL);

  // Not at once: the pages that are open belong to the worker before this one.
  self.addEventListener("install", (event) => event.waitUntil(packs.saveShell(SHELL)));

  self.addEventListener("activate", (event) => event.waitUntil(start()));

  self.addEventListener("message", (event) => {
    if (event.data === "take-over") {
      event.waitUntil(self.skipWaiting());
    }
  });

  self.addEventListener("fetch", (event) => {
    const request = event.request;
    const url = new URL(request.url);
    const isVisit = request.mode === "navigate";
    // Who asks with `no-store` wants to know what the network has: packs are loaded that way.
    const asksNetwork = !isVisit && request.cache === "no-store";
    if (request.method !== "GET" || asksNetwork || !url.href.startsWith(ROOT.href)) {
      return;
    }
    event.respondWith(isVisit ? visit(request, url) : supply(event, url));
  });

  async function start() {
    if (!self.registration.installing && !self.registration.waiting) {
      await packs.dropOtherShells(SHELL);
    }
    await packs.sweep();
    await self.clients.claim();
  }

  function pathOf(url) {
    const path = decodeURIComponent(url.pathname.slice(ROOT.pathname.length));
    return path === "" || path.endsWith("/") ? path + "index.html" : path;
  }

  function unitOf(path) {
    const found = UNIT.exec(path);
    return found ? found[1] : "";
  }

  function lead(path) {
    return Response.redirect(new URL(path, ROOT).href, 302);
  }

  function sayWhy(why, unit, path) {
    const asked = new URLSearchParams({ why: why, unit: unit, page: path });
    return lead(OFFLINE + "?" + asked);
  }

  // The browser's own cache is asked again: what it holds of a truck may be of two issues.
  function fromNetwork(request) {
    const options = { cache: "no-cache", credentials: "same-origin", redirect: "manual" };
    return fetch(request.url, options);
  }

  // When even the page that says so is gone: the saved trucks, and nothing else.
  async function bare() {
    const links = (await packs.saved()).map((pack) => {
      const address = new URL(pack.unit + "/index.html", ROOT).href;
      return '<p><a href="' + address + '">' + pack.unit + "</a></p>";
    });
    const page =
      '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>No signal</title></head>' +
      "<body><h1>No signal</h1><p>Trucks saved on this tablet:</p>" +
      (links.join("") || "<p>None.</p>") +
      "</body></html>";
    const headers = { "Content-Type": "text/html; charset=utf-8" };
    return new Response(page, { status: 503, headers: headers });
  }

  async function visit(request, url) {
    const path = pathOf(url);
    const unit = unitOf(path);
    if (unit) {
      return visitTruck(request, unit, path);
    }
    if (path === "index.html" && url.searchParams.get("open") === "last") {
      const last = await packs.last();
      return lead(last ? last.unit + "/index.html" : "index.html");
    }
    const kept = await packs.file(shell, path);
    if (kept) {
      return kept;
    }
    const hasOffline = path !== OFFLINE && (await packs.file(shell, OFFLINE));
    return fromNetwork(request).catch(() => (hasOffline ? sayWhy("no-page", "", path) : bare()));
  }

  async function visitTruck(request, unit, path) {
    const pack = await packs.pointer(unit);
    if (!pack) {
      return fromNetwork(request).catch(() => sayWhy("not-saved", unit, path));
    }
    if (packs.lists(pack, path)) {
      return (await packs.file(pack, path)) || sayWhy("broken", unit, path);
    }
    if (path.startsWith(unit + "/cards/")) {
      // For the printer, not for the tablet: no pack holds them, so none can be mixed.
      return fromNetwork(request).catch(() => sayWhy("not-kept", unit, path));
    }
    return sayWhy("not-kept", unit, path);
  }

  async function supply(event, url) {
    const path = pathOf(url);
    const unit = await whoAsks(event);
    const pack = unit && (await packs.pointer(unit));
    if (pack) {
      return (await packs.file(pack, path)) || new Response("", { status: 504 });
    }
    const kept = unit ? null : await packs.file(shell, path);
    return kept || fetch(event.request, { cache: "no-cache" });
  }

  // The truck whose page asks for a style, a script or a search index; empty for other pages.
  async function whoAsks(event) {
    const client = event.clientId ? await self.clients.get(event.clientId) : null;
    const address = client ? client.url : event.request.referrer;
    if (!address || !address.startsWith(ROOT.href)) {
      return "";
    }
    return unitOf(pathOf(new URL(address)));
  }
})();
