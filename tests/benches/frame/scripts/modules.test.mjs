// The modules as they lie, not put together: each finds what it imports.

import assert from "node:assert/strict";
import { test } from "node:test";

test("every module of a bench finds what it imports", async () => {
  globalThis.window = { matchMedia: () => ({ matches: false }) };
  const { render } = await import("../../../../widgets/fuelcircuits/benches/frame/static/bench.js");
  assert.equal(typeof render, "function");
});
