// Tables of a page: unpacked and blended as Python does, and a model that settles on a place.

import assert from "node:assert/strict";
import { test } from "node:test";
import { alike, blend, unpack } from "../../../../widgets/fuelcircuits/benches/frame/static/blend.js";
import { pageModel } from "../../../../widgets/fuelcircuits/benches/frame/static/model.js";
import { cases } from "./cases.mjs";

function near(ours, theirs, where) {
  if (typeof theirs === "number") assert.ok(Math.abs(ours - theirs) <= 1e-9 * Math.max(1, Math.abs(theirs)), `${where}: ${ours} for ${theirs}`);
  else if (theirs === null || typeof theirs !== "object") assert.equal(ours, theirs, where);
  else {
    assert.deepEqual(Object.keys(ours), Object.keys(theirs), where);
    for (const key of Object.keys(theirs)) near(ours[key], theirs[key], `${where}.${key}`);
  }
}

for (const { name, packed, settings } of cases.tables) {
  test(`${name} is blended as in Python`, async () => {
    const table = await unpack(packed);
    for (const { values, shown, words } of settings) {
      const corners = alike(table, values);
      near(blend(table.shown, corners), shown, "shown");
      near(blend(table.said, corners), words, "words");
    }
  });
}

async function lawModel() {
  const { packed } = cases.tables.find(({ name }) => name === "law");
  return pageModel({ start: { filled: 0.5 } }, await unpack(packed));
}

test("a model shows what it is set to, and tells of it once", async () => {
  const model = await lawModel(), heard = [];
  model.on("change", () => heard.push(model.get("filled")));
  model.set("filled", 0.52);
  assert.deepEqual(heard, []);
  model.save_changes();
  assert.deepEqual(heard, [0.52]);
  assert.equal(model.get("verdict"), "It is at 140.6 mm.");
});

test("across a change of kind a step leads onward, to the next place", async () => {
  const model = await lawModel();
  model.set("filled", 0.8);
  model.save_changes();
  model.set("filled", 0.81);
  model.save_changes();
  assert.ok(Math.abs(model.get("filled") - 0.85) < 1e-12);
  assert.equal(model.get("verdict"), "It runs over.");
});

test("a pinned state stays while the control moves", async () => {
  const model = await lawModel();
  const seen = model.get("readings");
  model.set("pinned", { filled: 0.5 });
  model.save_changes();
  model.set("filled", 0.6);
  model.save_changes();
  assert.deepEqual(model.get("before").readings, seen);
  assert.notDeepEqual(model.get("readings"), seen);
});
