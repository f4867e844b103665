// Keeps the live view usable without the network: every page and file it has seen is answered from the cache when
// the server cannot be reached. The network comes first, so nothing old is shown while the server answers.

const CACHE = "laydown-guide-1";
const PATIENCE_MS = 4000;

self.addEventListener("install", () => self.skipWaiting());

self.addEventListener("activate", (event) => {
  event.waitUntil(tidy().then(() => self.clients.claim()));
});

// The page names what it needs once it is under this worker's care.
self.addEventListener("message", (event) => {
  if (event.data?.keep) event.waitUntil(keepAll(event.data.keep).then(() => event.source?.postMessage({ kept: true })));
});

self.addEventListener("fetch", (event) => {
  const { method, url, headers } = event.request;
  if (method !== "GET" || new URL(url).origin !== location.origin) return;
  if (headers.get("accept") === "text/event-stream") return; // never whole, so never kept
  event.respondWith(fromNetworkElseCache(event.request));
});

async function fromNetworkElseCache(request) {
  const cache = await caches.open(CACHE);
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) });
    const whole = answer.ok && !answer.redirected && !answer.headers.has("x-laydown-have");
    if (whole) await cache.put(request.url, answer.clone());
    return answer;
  } catch (error) {
    const kept = await cache.match(request.url);
    if (!kept) throw error;
    return marked(kept);
  }
}

// The page must know that an answer is old; a cached answer says so in a header.
async function marked(kept) {
  const headers = new Headers(kept.headers);
  headers.set("x-laydown-from", "cache");
  return new Response(await kept.blob(), { status: kept.status, headers });
}

async function keepAll(addresses) {
  const cache = await caches.open(CACHE);
  await Promise.all(
    addresses.map(async (address) => {
      const answer = await fetch(address);
      if (answer.ok) await cache.put(new URL(address, location.href).href, answer);
    }),
  );
}

async function tidy() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith("laydown-guide-") && name !== CACHE).map((name) => caches.delete(name)));
}
