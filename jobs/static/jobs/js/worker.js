// Keeps the open car of the bay usable without signal: its page, the pages where it is said what was
// done differently, and what these are made of.
const PAGES = "bay-pages", PARTS = "bay-parts";
const KEPT = /^\/jobs\/[^/]+\/(bay|[a-z]+-as-built\/(add|\d+))\/$/;
const DOORS = /^\/sign-(in|out)\//;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event, url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  if (request.method === "POST" && DOORS.test(url.pathname)) event.respondWith(throughTheDoor(request));
  else if (request.method !== "GET") return;
  else if (request.mode === "navigate" && KEPT.test(url.pathname)) event.respondWith(freshFirst(request, PAGES));
  else if (url.pathname.startsWith("/static/")) event.respondWith(freshFirst(request, PARTS));
});

// Whoever signs in or out here: no page of the one before is there any more when the answer comes.
async function throughTheDoor(request) {
  const answer = await fetch(request);
  await caches.delete(PAGES);
  return answer;
}

// What the server says is always truer than what is kept. A page it sent elsewhere, such as to the
// sign-in, is not kept.
async function freshFirst(request, name) {
  const address = request.url.split("#")[0];
  try {
    const answer = await fetch(request);
    if (answer.ok && !answer.redirected && answer.type === "basic") {
      const cache = await caches.open(name);
      await cache.put(address, answer.clone());
    }
    return answer;
  } catch (trouble) {
    const cache = await caches.open(name);
    // Of a form that was not opened for this row the empty one does: its script chooses the row.
    const kept = (await cache.match(address)) ?? (await cache.match(address.split("?")[0]));
    if (kept) return kept;
    throw trouble;
  }
}
