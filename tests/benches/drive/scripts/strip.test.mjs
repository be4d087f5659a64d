// The strip: the window before a time, points on their axes, and another drive to compare with.

import assert from "node:assert/strict";
import { test } from "node:test";
import { stripOf, WINDOW, windowOf } from "../../../../widgets/fuelcircuits/benches/drive/static/strip.js";

const COLUMNS = ["time", "speed", "pedal", "mixture", "air", "screw", "slot", "main", "power", "pump"];
const row = (time) => [time, 100, 0.5, 0.9, time > 1 ? 1e-3 : 0, 1e-4, 0, 2.5e-3, 0, 0];
const rows = Array.from({ length: 1001 }, (_, i) => row(i * 0.04));

test("the window holds what lies in it, and one row before", () => {
  const seen = windowOf(rows, 30, 0);
  assert.ok(Math.abs(seen[0][0] - (30 - WINDOW)) < 0.05);
  assert.equal(seen.at(-1)[0], 30);
  assert.deepEqual(windowOf(rows, 0, 0), [row(0)]);
});

test("points are parts of their axes, few enough, and a mixture of no air has none", () => {
  const strip = stripOf(COLUMNS, {}, 200);
  const { own, before } = strip.chart(rows, 20, undefined);
  const [fuel, mixture, speed] = own.panels;
  assert.equal(before, undefined);
  assert.equal(fuel.y.high, 4e-3);
  assert.ok(fuel.curves[0].x.length <= 261);
  assert.ok(Math.abs(fuel.curves[0].x.at(-1) - 10000) < 1e-6);
  assert.ok(Math.abs(speed.curves[0].y.at(-1) - 5000) < 1e-9);
  assert.equal(mixture.curves[0].y[0], null);
  assert.notEqual(mixture.curves[0].y.at(-1), null);
});

test("another drive lies behind lambda, speed and pedal, not behind the fuel", () => {
  const { before } = stripOf(COLUMNS, {}, 200).chart(rows, 20, rows.slice(0, 100));
  assert.deepEqual(before.panels.map(({ curves }) => curves.length), [0, 1, 1, 1]);
});
