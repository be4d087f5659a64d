// The time of a drive against the clock, the feet of a trace, and a foot that takes its time.

import assert from "node:assert/strict";
import { test } from "node:test";
import { drivePace, feetIn, footSteps } from "../../../../widgets/fuelcircuits/benches/drive/static/pace.js";

test("so many blocks are owed as time has passed, and two that are laid ahead", () => {
  const pace = drivePace(0.02, 2);
  pace.to(10, 1);
  assert.equal(pace.owed(), 2);
  pace.took(2);
  pace.to(10.04, 1);
  assert.equal(pace.owed(), 1);
  pace.took(1);
  pace.to(10.06, 1);
  assert.equal(pace.owed(), 0);
});

test("slow motion owes a quarter", () => {
  const pace = drivePace(0.02, 2);
  pace.to(0, 0.25);
  pace.took(pace.owed());
  pace.to(0.16, 0.25);
  assert.equal(pace.owed(), 1);
});

test("what comes late leaves pictures out, not time; what is hopelessly late gives time up", () => {
  const pace = drivePace(0.02, 2);
  pace.to(0, 1);
  pace.took(2);
  pace.to(0.4, 1);
  assert.equal(pace.owed(), 10);
  pace.took(10);
  pace.came(0.04);
  pace.came(0.4);
  pace.skipped();
  assert.deepEqual(pace.counts, { pictures: 2, late: 1, dropped: 1, given: 0 });
  pace.to(3.4, 1);
  assert.ok(Math.abs(pace.counts.given - 2.32) < 1e-9);
  assert.equal(pace.owed(), 17);
});

test("the longer answers take, the earlier they are asked for, up to a bound", () => {
  const pace = drivePace(0.02, 2);
  pace.to(0, 1);
  for (let i = 0; i < 40; i += 1) pace.answered(0.1);
  assert.equal(pace.owed(), 3);
  for (let i = 0; i < 40; i += 1) pace.answered(5);
  assert.equal(pace.owed(), 7);
});

test("a halt does not count, and pictures wait until they are due", () => {
  const pace = drivePace(0.02, 2);
  pace.to(0, 1);
  assert.ok(!pace.isDue(0.04));
  pace.to(0.04, 1);
  assert.ok(pace.isDue(0.04));
  pace.halt();
  pace.to(9, 1);
  assert.ok(!pace.isDue(0.08));
});

test("feet are taken block by block across rows, and end with the trace", () => {
  const feet = feetIn([[3, 0.1, "low"], [2, 0.2, "low"]]);
  assert.deepEqual(feet.take(2), [[2, 0.1, "low"]]);
  assert.deepEqual(feet.take(2), [[1, 0.1, "low"], [1, 0.2, "low"]]);
  assert.ok(!feet.done);
  assert.deepEqual(feet.take(2), [[1, 0.2, "low"]]);
  assert.ok(feet.done);
  assert.deepEqual(feet.take(2), []);
});

test("a foot goes from end to end in ten steps, and rests in one row", () => {
  const { rows, place } = footSteps(12, [0, 0, 0], [1, 0, 0], ["low", 0, true, false]);
  assert.equal(rows.length, 10);
  assert.deepEqual(rows[0], [1, 0.1, "low", 0, true, false, 0, 0]);
  assert.deepEqual(rows.at(-1), [3, 1, "low", 0, true, false, 0, 0]);
  assert.ok(Math.abs(place[0] - 1) < 1e-9);
  assert.deepEqual(footSteps(4, [0.031, 0, 1], [0.031, 0, 1], []).rows, [[4, 0.031, 0, 1]]);
});

test("the clutch goes down at once and comes up slowly", () => {
  const down = footSteps(5, [0, 0, 0], [0, 1, 0], []);
  assert.deepEqual(down.rows.at(-1), [1, 0, 1, 0]);
  const up = footSteps(5, down.place, [0, 0, 0], []);
  assert.deepEqual(up.rows.at(-1), [1, 0, 0.925, 0]);
});
