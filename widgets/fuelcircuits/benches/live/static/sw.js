// Everything of one release, kept on the device: after one visit the pages need no network.
// A newer release is fetched beside it and waits until it is asked for. What both have in common
// is not fetched again. RELEASE stands above: { name, engine, files: { address: digest } }.

const OURS = "fuelcircuits-";
const CACHE = `${OURS}${RELEASE.name}`;
const MEMORY = `${OURS}memory-${RELEASE.engine}`;
const here = new URL("./", self.location.href).href;
const keyOf = (address) => `${here}${address}?${RELEASE.files[address]}`;

async function bring(cache, address) {
  const key = keyOf(address);
  const known = await caches.match(key);
  const response = known ?? (await fetch(new Request(here + address, { cache: "no-cache" })));
  if (!response.ok) throw new Error(`${address} must be on the server, which says ${response.status}`);
  await cache.put(key, response);
}

async function keepAll() {
  const cache = await caches.open(CACHE);
  for (const address of Object.keys(RELEASE.files)) await bring(cache, address);
}

async function dropOlder() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(OURS) && name !== CACHE && name !== MEMORY);
  await Promise.all(old.map((name) => caches.delete(name)));
  await self.clients.claim();
}

// The address within these pages; that of a folder is its index.
function addressOf(url) {
  if (!url.startsWith(here)) return undefined;
  const path = decodeURI(new URL(url).pathname.slice(new URL(here).pathname.length));
  return path === "" || path.endsWith("/") ? `${path}index.html` : path;
}

async function answer(request) {
  const address = addressOf(request.url);
  const cache = await caches.open(CACHE);
  return (address in RELEASE.files && (await cache.match(keyOf(address)))) || fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(keepAll()));
self.addEventListener("activate", (event) => event.waitUntil(dropOlder()));
self.addEventListener("message", ({ data }) => data === "use" && self.skipWaiting());
self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET" && addressOf(event.request.url) !== undefined) event.respondWith(answer(event.request));
});
