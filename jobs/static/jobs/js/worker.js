// Keeps the open car of the bay usable without signal: its page and what the page is made of.
const PAGES = "bay-pages", PARTS = "bay-parts";
const BAY = /^\/jobs\/[^/]+\/bay\/$/;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event, url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (request.mode === "navigate" && BAY.test(url.pathname)) event.respondWith(freshFirst(request, PAGES));
  else if (url.pathname.startsWith("/static/")) event.respondWith(freshFirst(request, PARTS));
});

// What the server says is always truer than what is kept. A page it sent elsewhere, such as to the
// sign-in, is not kept; signing out takes away those that are (bay.js).
async function freshFirst(request, name) {
  try {
    const answer = await fetch(request);
    if (answer.ok && !answer.redirected && answer.type === "basic") {
      const cache = await caches.open(name);
      await cache.put(request.url.split("#")[0], answer.clone());
    }
    return answer;
  } catch (trouble) {
    const kept = await (await caches.open(name)).match(request.url.split("#")[0]);
    if (kept) return kept;
    throw trouble;
  }
}
