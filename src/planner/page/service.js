/** Keeps the files of the page, so that it opens without a network. Answers of the engine are never kept here. */

/** Raised when files come or go; the browser then takes all of them anew. */
const KEPT = "fardel-page-1";
const FIRST = ["./", "manifest.webmanifest", "icon.svg", "icon-192.png", "icon-512.png"];

const self_ = /** @type {any} */ (self);

self_.addEventListener("install", (/** @type {any} */ event) => {
  event.waitUntil(caches.open(KEPT).then((cache) => cache.addAll(FIRST)).then(() => self_.skipWaiting()));
});

self_.addEventListener("activate", (/** @type {any} */ event) => {
  event.waitUntil(caches.keys().then((names) => Promise.all(names.filter((name) => name !== KEPT).map((name) => caches.delete(name)))).then(() => self_.clients.claim()));
});

self_.addEventListener("fetch", (/** @type {any} */ event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin || url.pathname.includes("/api/")) return;
  event.respondWith(fresh(request).catch(() => caches.match(request, { ignoreSearch: true }).then((kept) => kept ?? caches.match("./"))));
});

/** From the network, and into the store; without a network it fails. @param {Request} request */
async function fresh(request) {
  const answer = await fetch(request);
  if (answer.ok) {
    const cache = await caches.open(KEPT);
    await cache.put(request, answer.clone());
  }
  return answer;
}
