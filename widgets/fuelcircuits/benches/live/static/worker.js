// Python in a worker: it starts, from a memory that the device has kept where there is one, and
// answers questions one after the other. Its name is that of the release, which its own address has
// not where a service worker brought it; one named "memory" too only makes that memory.

import { loadPyodide } from "./pyodide.mjs";

const here = new URL("./", import.meta.url).href;
const [release, errand] = self.name.split(" ");
const memories = `fuelcircuits-memory-${release}`;
const WASM = "pyodide.asm.wasm";
const PACKED = { [WASM]: "application/wasm", "library.zip": "application/zip", "package.zip": "application/zip" };
const MEMORY = "memory";
const QUIET = 60; // milliseconds after an answer till the next is prepared: it is painted by then
const START = `
import sys
sys.path.insert(0, "/package.zip")
from fuelcircuits.benches.live.desk import desk_in
ask = desk_in("/package.zip").ask
`;
const OPEN_ALL = `
import gc, json
from fuelcircuits.benches import BENCHES
for stem in BENCHES:
    ask(json.dumps({"ask": "bench", "stem": stem, "rig": "plover", "system": "SI"}))
ask('{"ask": "drive", "rig": "plover", "do": "about"}')
gc.collect()
`;

// What is large travels packed, which spares any server the trouble, and is counted as it comes.
async function unpacked(name) {
  const response = await plainFetch(`${here}${name}.packed?${release}`);
  if (!response.ok) throw new Error(`${name} must be on the server, which says ${response.status}`);
  const count = new TransformStream({
    transform(chunk, onward) {
      postMessage({ came: chunk.length });
      onward.enqueue(chunk);
    },
  });
  const stream = response.body.pipeThrough(count).pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream, { headers: { "content-type": PACKED[name] } });
}

// A part that has been unpacked at an earlier visit, or the packed one.
const part = async (name) => (await keptAs(name)) ?? unpacked(name);

// Pyodide would have its code compiled once its script and the memory have come; here all of these
// come at the same time, and what it asks for then is there.
let code;
const compile = () => (code ??= part(WASM).then((response) => WebAssembly.compileStreaming(response)));
WebAssembly.instantiateStreaming = async (_source, imports) => {
  const module = await compile();
  return { module, instance: await WebAssembly.instantiate(module, imports) };
};

const plainFetch = self.fetch;
self.fetch = async (asked, how) => {
  const name = new URL(asked.url ?? asked, here).pathname.split("/").pop();
  if (name === WASM) return new Response();
  return name in PACKED ? part(name) : plainFetch(asked, how);
};

async function load(how) {
  const archive = part("package.zip").then((response) => response.arrayBuffer());
  const coming = loadPyodide({ indexURL: here, packageBaseUrl: here, stdLibURL: `${here}library.zip`, ...how });
  const [python] = await Promise.all([coming, compile()]);
  python.FS.writeFile("/package.zip", new Uint8Array(await archive));
  return python;
}

// What an earlier visit has kept under a name; nothing where the browser keeps none.
const keptAs = (name) => self.caches?.match(name, { cacheName: memories }).catch(() => undefined);

async function start() {
  compile();
  import("./pyodide.asm.mjs");
  const memory = await keptAs(MEMORY);
  if (memory) {
    try {
      return (await load({ _loadSnapshot: memory.arrayBuffer() })).globals.get("ask");
    } catch {
      await caches.delete(memories);
    }
  }
  const python = await load();
  python.runPython(START);
  return python.globals.get("ask");
}

// Keep the memory of a Python that has opened every bench, and beside it all parts unpacked.
async function remember() {
  if (await keptAs(MEMORY)) return;
  const cache = await caches.open(memories);
  for (const name of Object.keys(PACKED)) await cache.put(name, await unpacked(name));
  const python = await load({ _makeSnapshot: true });
  python.runPython(START + OPEN_ALL);
  await cache.put(MEMORY, new Response(python.makeMemorySnapshot()));
}

if (errand === MEMORY) {
  await remember().then(() => postMessage({ kept: true }), (error) => postMessage({ kept: false, why: String(error) }));
  self.close();
} else {
  const ready = start();
  let ahead = "", timer = 0;
  ready.then(() => postMessage({ ready: true }), (error) => postMessage({ failed: String(error) }));

  // Work out a piece of what may be asked next, and rest, so that a question is heard.
  async function workAhead() {
    const ask = await ready;
    if (ahead && JSON.parse(ask(ahead)).whole === false) timer = setTimeout(workAhead);
  }

  self.onmessage = async ({ data: { number, question, onward } }) => {
    clearTimeout(timer);
    ahead = onward ?? "";
    if (onward) timer = setTimeout(workAhead, QUIET);
    if (!question) return;
    const ask = await ready;
    try {
      postMessage({ number, answer: ask(question) });
    } catch (error) {
      postMessage({ number, error: String(error.message ?? error).trim().split("\n").at(-1) });
    }
  };
}
