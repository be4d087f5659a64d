// What waits for Python while it comes, and what is asked of it once it is there.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openDesk } from "../../../../widgets/fuelcircuits/benches/live/static/asking.js";

const LIKELY = { ask: "answer", values: { demand: 2 } };

// A desk whose worker notes what it is asked; `tell` is what the worker says.
function opened(first = []) {
  const asked = [];
  let worker;
  globalThis.Worker = class {
    constructor() {
      worker = this;
    }
    postMessage({ number, question }) {
      asked.push([number, JSON.parse(question)]);
    }
  };
  const desk = openDesk("worker.js", () => {}, first);
  return { desk, asked, tell: (data) => worker.onmessage({ data }) };
}

test("a likely question starts no Python, and is asked once one is there", () => {
  const { desk, asked, tell } = opened();
  desk.expect(LIKELY);
  assert.deepEqual(asked, []);
  desk.start();
  assert.deepEqual(asked, []);
  tell({ ready: true });
  assert.deepEqual(asked, [[1, LIKELY]]);
  tell({ number: 1, answer: "{}" });
});

test("it is not asked where somebody waits for another answer", async () => {
  const { desk, asked, tell } = opened();
  desk.expect(LIKELY);
  const told = desk.ask({ ask: "card" });
  tell({ ready: true });
  tell({ number: 1, answer: '{"name":"mine"}' });
  assert.deepEqual(await told, { name: "mine" });
  assert.deepEqual(asked, [[1, { ask: "card" }]]);
});

test("a card of one's own is told before anything else", () => {
  const { desk, asked } = opened([{ ask: "card", text: "mine" }]);
  desk.ask(LIKELY);
  assert.deepEqual(asked.map(([, question]) => question.ask), ["card", "answer"]);
});
