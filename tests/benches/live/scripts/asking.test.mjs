// What waits for Python while it comes, and what is asked of it once it is there.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openDesk } from "../../../../widgets/fuelcircuits/benches/live/static/asking.js";

const LIKELY = { ask: "onward", values: { demand: 2 } };
const CARD = { ask: "card" };

// A desk whose worker notes what it is asked, and what it is to prepare; `tell` is what it says.
function opened(first = [], hidden = false) {
  const asked = [], prepared = [];
  let worker;
  globalThis.document = { hidden };
  globalThis.Worker = class {
    constructor() {
      worker = this;
    }
    postMessage({ number, question, onward }) {
      if (onward) prepared.push(JSON.parse(onward));
      else asked.push([number, JSON.parse(question)]);
    }
  };
  const desk = openDesk("worker.js", "1", () => {}, first);
  return { desk, asked, prepared, tell: (data) => worker.onmessage({ data }) };
}

test("what is likely starts no Python, and is prepared once one is there", () => {
  const { desk, asked, prepared, tell } = opened();
  desk.prepare(LIKELY);
  desk.start();
  assert.deepEqual(prepared, []);
  tell({ ready: true });
  assert.deepEqual(prepared, [LIKELY]);
  assert.deepEqual(asked, []);
});

test("of two that are likely before there is a Python, the first is prepared", () => {
  const { desk, prepared, tell } = opened();
  desk.prepare(LIKELY);
  desk.prepare({ ...LIKELY, values: { demand: 3 } });
  desk.start();
  tell({ ready: true });
  assert.deepEqual(prepared, [LIKELY]);
});

test("nothing is prepared while somebody waits for an answer", async () => {
  const { desk, asked, prepared, tell } = opened();
  desk.prepare(LIKELY);
  const told = desk.ask(CARD);
  tell({ ready: true });
  desk.prepare(LIKELY);
  assert.deepEqual(prepared, []);
  tell({ number: 1, answer: '{"name":"mine"}' });
  assert.deepEqual(await told, { name: "mine" });
  desk.prepare(LIKELY);
  assert.deepEqual(prepared, [LIKELY]);
  assert.deepEqual(asked, [[1, CARD]]);
});

test("nothing is prepared where nobody looks", () => {
  const { desk, prepared, tell } = opened([], true);
  desk.prepare(LIKELY);
  desk.start();
  tell({ ready: true });
  desk.prepare(LIKELY);
  assert.deepEqual(prepared, []);
});

test("a card of one's own is told before anything else", () => {
  const { desk, asked } = opened([{ ask: "card", text: "mine" }]);
  desk.ask({ ask: "answer" });
  assert.deepEqual(asked.map(([, question]) => question.ask), ["card", "answer"]);
});
