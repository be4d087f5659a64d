// Numbers as they are shown and read: the same words as Python's, and back to SI.

import assert from "node:assert/strict";
import { test } from "node:test";
import { AWAITED, numberTyped, placeIn, siOf, ticks, told, valueAt } from "../../../../widgets/fuelcircuits/benches/frame/static/measure.js";
import { cases } from "./cases.mjs";

for (const { measure, ways, value, system, brief, text } of cases.texts) {
  test(`${value} is ${text}`, () => assert.equal(told({ measure, ways }, value, system, brief), text));
}

const KELVIN = { factor: 1, offset: -273.15 };

test("what somebody typed is held inside the ends, in SI", () => {
  const ends = { low: 253.15, high: 313.15 };
  assert.equal(siOf(KELVIN, 20, ends), 293.15);
  assert.equal(siOf(KELVIN, -99, ends), ends.low);
  assert.equal(siOf(KELVIN, 99, ends), ends.high);
});

test("what is no number is none", () => assert.equal(siOf(KELVIN, NaN, { low: 0, high: 1 }), undefined));

test("a moment of a run lies between its times", () => {
  const place = placeIn([0, 1, 4], 2.5);
  assert.deepEqual(place, { low: 1, high: 2, part: 0.5 });
  assert.equal(valueAt([7, 10, 20], place), 15);
  assert.equal(valueAt([7, null, 20], place), 20);
  assert.equal(valueAt(3, place), 3);
});

test("a time before or after the run is its first or last", () => {
  assert.equal(valueAt([7, 10, 20], placeIn([0, 1, 4], -1)), 7);
  assert.equal(valueAt([7, 10, 20], placeIn([0, 1, 4], 9)), 20);
});

test("ticks are whole steps of 1, 2 or 5, without a negative nought", () => {
  assert.deepEqual(ticks(0, 60, 6).marks.map(({ text }) => text), ["0", "10", "20", "30", "40", "50", "60"]);
  assert.deepEqual(ticks(-0.3, 0.31, 6).marks.map(({ text }) => text), ["-0.3", "-0.2", "-0.1", "0.0", "0.1", "0.2", "0.3"]);
  assert.deepEqual(ticks(10, 0, 4).step, 2);
});

test("a number is typed with a point or a comma, and with its unit if one likes", () => {
  const typed = { "35,5": 35.5, "35.5": 35.5, " 28 kPa": 28, "28kPa": 28, "-0,5": -0.5, ",5": 0.5, "1 200": 1200, "2.5e-3": 0.0025 };
  for (const [text, number] of Object.entries(typed)) assert.equal(numberTyped(text, "kPa"), number, text);
  for (const text of ["", "abc", "1.234,5", "1,2,3", "28 psi", "--1"]) assert.ok(Number.isNaN(numberTyped(text, "kPa")), text);
});

test("a reading that is still being worked out is no number, and not the sign of none", () => {
  const scale = { factor: 1, offset: 0, digits: 1, unit: "kPa" };
  assert.equal(told({ measure: { SI: scale } }, valueAt(undefined, null), "SI"), AWAITED);
  assert.equal(told({ measure: { SI: scale } }, null, "SI"), "–");
});
