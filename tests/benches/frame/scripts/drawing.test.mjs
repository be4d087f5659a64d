// How large words are in a drawing that is shown small, or of which a part is enlarged.

import assert from "node:assert/strict";
import { test } from "node:test";

globalThis.window = { matchMedia: () => ({ matches: false }) };
const { typeOf } = await import("../../../../widgets/fuelcircuits/benches/frame/static/drawing.js");
const WHOLE = [0, 0, 540, 300], PART = [100, 50, 135, 75];

test("words are as large on the screen as they were drawn, where the drawing is shown smaller", () => {
  assert.equal(typeOf(WHOLE, WHOLE, [270, 150]), 2);
  assert.equal(typeOf(WHOLE, WHOLE, [540, 100]), 3);
});

test("they are as they were drawn in one that is shown larger, or not yet", () => {
  assert.equal(typeOf(WHOLE, WHOLE, [1080, 600]), 1);
  assert.equal(typeOf(WHOLE, WHOLE, [0, 0]), 1);
});

test("they grow less than an enlarged part does, and stay as large as they were", () => {
  assert.equal(typeOf(PART, WHOLE, [540, 300]), 0.25 ** 0.7);
  assert.equal(typeOf(PART, WHOLE, [54, 30]), 2.5);
});
