// The rules of a drawing: read and carried out as Python does for paper.

import assert from "node:assert/strict";
import { test } from "node:test";
import { filled, rulesIn } from "../../../../widgets/fuelcircuits/benches/frame/static/rules.js";
import { cases } from "./cases.mjs";

const numbersIn = (text) => text.match(/-?\d+(\.\d+)?/g) ?? [];

for (const { drawing, parts, numbers } of cases.drawings) {
  test(`every part of ${drawing} is placed as on paper`, () => {
    for (const { rule, set } of parts) {
      const ours = rulesIn(rule).map(({ name, text }) => [name, filled(text, numbers)]);
      assert.deepEqual(ours.map(([name]) => name), set.map(([name]) => name));
      ours.forEach(([, text], i) => {
        const [here, there] = [text, set[i][1]].map((each) => numbersIn(each).map(Number));
        here.forEach((number, n) => assert.ok(Math.abs(number - there[n]) < 1.01e-3, `${text} for ${set[i][1]}`));
        assert.equal(here.length, there.length);
      });
    }
  });
}

test("a rule names an attribute and keeps every other sign of its text", () => {
  assert.deepEqual(rulesIn(" text = a = b: [c]; x=[d] "), [
    { name: "text", text: "a = b: [c]" },
    { name: "x", text: "[d]" },
  ]);
});

test("a number that is missing is an error", () => assert.throws(() => filled("[turn]", {}), TypeError));
