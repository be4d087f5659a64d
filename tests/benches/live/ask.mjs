// Ask the browser's Python, with the library and package that pages carry:
// node ask.mjs core archives questions.json answers.json [first.py, which it runs before]

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [core, archives, questions, answers, first] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(join(core, "pyodide.mjs")));
const python = await loadPyodide({ stdLibURL: join(archives, "library.zip") });
python.FS.writeFile("/package.zip", new Uint8Array(readFileSync(join(archives, "package.zip"))));
python.runPython('import sys; sys.path.insert(0, "/package.zip")');
if (first) python.runPython(readFileSync(first, "utf8"));
const ask = python.runPython(`
from fuelcircuits.benches.live.desk import desk_in
desk_in("/package.zip").ask
`);
writeFileSync(answers, JSON.stringify(JSON.parse(readFileSync(questions, "utf8")).map((question) => ask(JSON.stringify(question)))));
process.exit(0); // Pyodide leaves a socket open
