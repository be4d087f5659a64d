// Curves as paths, and those that are still being worked out.

import assert from "node:assert/strict";
import { test } from "node:test";
import { linesOf, pathOf, withAxes } from "../../../../widgets/fuelcircuits/benches/frame/static/plot.js";

const axis = (low, high) => ({ low, high });
const chart = (x, role = "lead", high = 1) => ({ x: axis(0, high), panels: [{ y: axis(0, 2), curves: [{ role, label: "flow", x, y: x }] }] });
const FRAME = { x: 100, y: 50, width: 200, height: 100 };
const UNIT = { x: axis(0, 1), y: axis(0, 1) };

test("a path starts anew after a gap", () => {
  const curve = { x: [0, 5000, null, 10000], y: [0, 5000, 5000, 10000] };
  assert.equal(pathOf(curve, FRAME, UNIT, UNIT), "M100.0 150.0L200.0 100.0M300.0 50.0");
});

test("a curve of other axes lies where its values are", () => {
  const curve = { x: [0, 10000], y: [10000, 10000] };
  assert.equal(pathOf(curve, FRAME, UNIT, { x: axis(0, 2), y: axis(0, 4) }), "M100.0 125.0L200.0 125.0");
});

test("a curve to come stays as it last was, on the axes it had", () => {
  const first = linesOf(chart([0, 10000]), []);
  const second = linesOf(chart(null, "lead", 5), first);
  assert.deepEqual(second, first);
  assert.deepEqual(linesOf(chart(null, "lead", 7), second), first);
  assert.equal(linesOf(chart([0, 1], "lead", 5), second)[0][0].from.x.high, 5);
});

test("what was another curve, or none, is not drawn in its place", () => {
  assert.equal(linesOf(chart(null, "other"), linesOf(chart([0, 10000]), []))[0][0], undefined);
  assert.equal(linesOf(chart(null), [])[0][0], undefined);
});

test("an axis that is still being worked out stays as it was", () => {
  const panel = (high) => ({ panels: [{ y: { high } }] });
  assert.equal(withAxes(panel(null), panel(3)).panels[0].y.high, 3);
  assert.equal(withAxes(panel(5), panel(3)).panels[0].y.high, 5);
});
