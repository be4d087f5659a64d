// Let the browser's Python compile itself and the package: node forge.mjs core package.zip into
// `core` is the folder of Pyodide; `into` gets library.zip and package.zip.

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [core, source, into] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(join(core, "pyodide.mjs")));
const python = await loadPyodide();
python.FS.writeFile("/package.zip", new Uint8Array(readFileSync(source)));
const make = python.runPython(`
import sys
sys.path.insert(0, "/package.zip")
from fuelcircuits.benches.live.compiled import library, rehearse, squeezed

def make():
    rehearse("/package.zip")
    home = next(place for place in sys.path if place.endswith(".zip") and "python" in place)
    return [("library.zip", library(home)), ("package.zip", squeezed("/package.zip"))]
make
`);
try {
  for (const [name, bytes] of make().toJs()) writeFileSync(join(into, name), bytes);
} catch (error) {
  console.error(error.message); // not the line of the script, which is a megabyte long
  process.exit(1);
}
process.exit(0); // Pyodide leaves a socket open
