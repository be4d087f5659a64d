// What keeps the pages on the device: a service worker, and a memory of Python as it has started.

import { element } from "../../frame/static/controls.js";

// Keep everything that stands under `root`; told in `place`. True once it is kept.
export async function workOffline(root, place) {
  const pages = await navigator.serviceWorker?.register(new URL("sw.js", new URL(root, location.href)));
  if (!pages) return false;
  const offer = (worker) => {
    const use = () => {
      navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
      worker.postMessage("use");
    };
    place.replaceChildren("A newer version of these pages is ready. ", element("button", { type: "button", onclick: use }, "Use it now"));
  };
  const watch = (worker) => worker?.addEventListener("statechange", () => worker.state === "installed" && navigator.serviceWorker.controller && offer(worker));
  if (pages.waiting) offer(pages.waiting);
  watch(pages.installing);
  pages.addEventListener("updatefound", () => watch(pages.installing));
  await navigator.serviceWorker.ready;
  pages.update().catch(() => {}); // a browser looks for a newer release when it likes, or without a network not at all
  if (!place.hasChildNodes()) place.textContent = "These pages are kept on this device and work without a network.";
  return true;
}

// Let a worker make the memory in which Python starts at the next visit, where the browser can and
// has none. `home` is the address of the worker, `release` that of what it runs.
export async function rememberPython(home, release) {
  if (!("caches" in window)) return;
  const tell = (kept) => (document.documentElement.dataset.memory = kept ? "kept" : "none");
  const cacheName = `fuelcircuits-memory-${release}`;
  if (await caches.match(new URL("memory", home), { cacheName }).catch(() => undefined)) return tell(true);
  const maker = new Worker(home, { type: "module", name: `${release} memory` });
  maker.onmessage = ({ data }) => {
    if (!("kept" in data)) return;
    tell(data.kept);
    maker.terminate();
  };
}
