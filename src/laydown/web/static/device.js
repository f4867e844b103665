// What the device offers only on 127.0.0.1 and with https: loading again without the network, and staying awake.

// Stores the page and what it needs; `told(true)` once all of it is stored, `told(false)` where that cannot be.
export async function keepForOffline(page, address, told) {
  if (!("serviceWorker" in navigator)) return told(false);
  try {
    navigator.serviceWorker.addEventListener("message", (event) => event.data?.kept && told(true));
    await navigator.serviceWorker.register("/guide/worker.js", { scope: "/guide/" });
    const { active } = await navigator.serviceWorker.ready;
    active.postMessage({ keep: neededBy(address) });
  } catch {
    told(false);
  }
}

// What the page was told is kept for a load without the network: the answer to a tap is newer than what the worker saw,
// and the first answers came before there was a worker. The cache is the worker's own.
export async function keepAnswer(address, answer) {
  if (!("caches" in window)) return;
  const cache = await caches.open("laydown-guide-1");
  await cache.put(address, new Response(JSON.stringify(answer), { headers: { "content-type": "application/json" } }));
}

function neededBy(address) {
  const files = performance.getEntriesByType("resource").map((entry) => entry.name);
  const own = files.filter((name) => /^\/(static|font)\//.test(new URL(name).pathname));
  return [...new Set([address, `${address}/fix`, ...own])];
}

// Keeps the screen on while the page is looked at; the lock is lost with every look away and taken again.
export async function keepAwake(told) {
  if (!("wakeLock" in navigator)) return told(false);
  const take = async () => {
    if (document.hidden) return;
    try {
      await navigator.wakeLock.request("screen");
      told(true);
    } catch {
      told(false); // a low battery, or a browser without a screen
    }
  };
  document.addEventListener("visibilitychange", take);
  return take();
}
