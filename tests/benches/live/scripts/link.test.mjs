// A page's state as a link, and back.

import assert from "node:assert/strict";
import { test } from "node:test";
import { linkOf, seatsIn, settingOf } from "../../../../widgets/fuelcircuits/benches/frame/static/link.js";

const start = { demand: 0.003, nozzle: "bled", hose: false };
const controls = [
  { name: "demand", kind: "number", low: 0, high: 0.012 },
  { name: "nozzle", kind: "choice", options: [{ value: "bled" }, { value: "plain" }] },
  { name: "hose", kind: "switch" },
];
const seat = { rig: "plover", start, values: start, pinned: {} };

function back(text) {
  const { seats, together } = seatsIn(text);
  const filled = (texts) => texts && { ...start, ...settingOf(controls, texts) };
  return { together, seats: seats.map(({ rig, values, pinned }) => ({ rig, values: filled(values), pinned: filled(pinned) })) };
}

test("what stands where it starts is left out", () => assert.equal(linkOf([seat], true), "rig=plover"));

test("one setting comes back to the last digit", () => {
  const values = { demand: 0.1 + 0.2 - 0.295, nozzle: "plain", hose: true };
  const pinned = { ...start, demand: 1 / 300 };
  const found = back(linkOf([{ ...seat, rig: "dunlin", values, pinned }], false));
  assert.deepEqual(found, { together: false, seats: [{ rig: "dunlin", values, pinned }] });
});

test("a pin where all started is kept", () => assert.deepEqual(back(linkOf([{ ...seat, pinned: start }], false)).seats[0].pinned, start));

test("two settings come back, each with its rig", () => {
  const second = { ...seat, rig: "own", values: { ...start, hose: true } };
  const found = back(linkOf([seat, second], true));
  assert.ok(found.together);
  assert.deepEqual(found.seats.map(({ rig }) => rig), ["plover", "own"]);
  assert.deepEqual(found.seats[1].values, second.values);
});

test("what a link should not say is passed over or kept inside the bounds", () => {
  assert.deepEqual(settingOf(controls, { demand: "9", nozzle: "bent", flow: "3", hose: "yes" }), { demand: 0.012, hose: false });
  assert.deepEqual(settingOf(controls, { demand: "" }), {});
  assert.deepEqual(settingOf(controls, { demand: "wide" }), {});
});
