// Keeps the files of the page for days without a network, all of one version. Of what the server says it
// keeps nothing: the log is the page's to keep.
declare const VERSION: string;
declare const self: ServiceWorkerGlobalScope;

const cache = `clench-site-${VERSION}`;
const files = ["site", "site.js", "site.css", "site.wasm", "picture.css"];
const address = (name: string) => new URL(name, self.location.href).pathname;
const known = new Set(files.map(address));

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    await (await caches.open(cache)).addAll(files.map((name) => new Request(address(name), { cache: "reload" })));
    await self.skipWaiting();
  })());
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys())
      if (name.startsWith("clench-site-") && name !== cache) await caches.delete(name);
    await self.clients.claim();
  })());
});

self.addEventListener("fetch", (event) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method !== "GET" || origin !== self.location.origin || !known.has(pathname)) return;
  event.respondWith((async () => (await (await caches.open(cache)).match(pathname)) ?? fetch(event.request))());
});

export {};
