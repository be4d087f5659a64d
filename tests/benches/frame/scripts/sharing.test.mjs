// A bench's setting as text, opened again on another.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openSetting, settingText } from "../../../../widgets/fuelcircuits/benches/frame/static/sharing.js";

const about = {
  controls: [
    { name: "demand", kind: "number", start: 0.003, low: 0, high: 0.012 },
    { name: "screw", kind: "choice", start: 1, options: [{ value: 1 }, { value: 2.5 }] },
  ],
};

function modelAt(values) {
  const state = { pinned: {}, ...values };
  return { state, get: (name) => state[name], set: (name, value) => (state[name] = value), save_changes() {} };
}

test("a setting with its pin comes back", () => {
  const one = modelAt({ demand: 0.1 + 0.2 - 0.295, screw: 2.5, pinned: { demand: 1 / 300, screw: 1 } });
  const other = modelAt({ demand: 0.003, screw: 1 });
  assert.ok(openSetting(about, other, settingText(about, one)));
  assert.deepEqual(other.state, one.state);
});

test("a start has a text too, and opens on what was moved", () => {
  const moved = modelAt({ demand: 0.004, screw: 2.5 });
  assert.ok(openSetting(about, moved, settingText(about, modelAt({ demand: 0.003, screw: 1 }))));
  assert.deepEqual(moved.state, { pinned: {}, demand: 0.003, screw: 1 });
});

test("a whole link opens, what lies beyond an end is held there, and nonsense opens nothing", () => {
  const model = modelAt({ demand: 0.003, screw: 1 });
  assert.ok(openSetting(about, model, "http://127.0.0.1/x.html#demand=9"));
  assert.equal(model.state.demand, 0.012);
  assert.ok(!openSetting(about, model, "nonsense"));
  assert.equal(model.state.demand, 0.012);
});
