// The order in which a page asks and shows: points first, curves after, nothing that is outdated.

import assert from "node:assert/strict";
import { test } from "node:test";
import { GLANCE, answeredModel } from "../../../../widgets/fuelcircuits/benches/live/static/answering.js";

const about = { controls: [{ name: "demand" }] };
const until = async (is) => {
  for (let i = 0; !is(); i += 1) {
    assert.ok(i < 400, "must happen within two seconds");
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
};

// A bench in two stages, the second in so many pieces; `asked` are its questions, `shown` what the
// model has shown, `prepared` what it wants to have prepared.
function opened({ delay = 1, pieces = 1, fails = () => false, ...part } = {}) {
  const asked = [], shown = [], prepared = [], worked = {};
  const ask = async (question) => {
    asked.push([question.values.demand, question.curves]);
    await new Promise((resolve) => setTimeout(resolve, delay));
    if (fails(question)) throw new Error("it broke");
    const { demand } = question.values;
    if (question.curves && (worked[demand] = (worked[demand] ?? 0) + 1) < pieces) return { whole: false };
    return { verdict: `at ${question.values.demand}`, whole: question.curves, readings: [question.values.demand], chart: { of: question.values.demand } };
  };
  const model = answeredModel({ about, start: { demand: 1 }, first: { verdict: "first", whole: true }, ...part }, "SI", ask, (question) => prepared.push(question));
  model.on("change", () => shown.push([model.get("verdict"), model.get("whole")]));
  const move = (value) => {
    model.set("demand", value);
    model.save_changes();
  };
  return { model, asked, shown, prepared, move };
}

test("nothing is asked while all stands where it starts", async () => {
  const { model, asked } = opened();
  model.work();
  await new Promise((resolve) => setTimeout(resolve, 150));
  assert.deepEqual(asked, []);
  assert.equal(model.get("verdict"), "first");
});

test("a setting of a link is asked for at once", async () => {
  const { model, asked } = opened({ values: { demand: 2 } });
  model.work();
  await until(() => asked.length === 2 && model.get("whole"));
  assert.deepEqual(asked, [[2, false], [2, true]]);
});

test("a point is shown before its curves", async () => {
  const { model, shown, move } = opened();
  move(2);
  await until(() => shown.length > 1 && model.get("whole"));
  assert.deepEqual(shown.slice(-2), [["at 2", false], ["at 2", true]]);
});

test("no curves are asked for while a slider moves", async () => {
  const { model, asked, move } = opened();
  for (let value = 2; value < 12; value += 1) {
    move(value);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  await until(() => model.get("verdict") === "at 11" && model.get("whole"));
  assert.deepEqual(asked.filter(([, curves]) => curves), [[11, true]]);
  assert.ok(asked.length > 5);
});

test("curves of an older setting are dropped", async () => {
  const { model, asked, shown, move } = opened({ delay: 40 });
  move(2);
  await until(() => asked.length === 2);
  move(3);
  await until(() => model.get("verdict") === "at 3" && model.get("whole"));
  assert.deepEqual(shown.filter(([verdict, whole]) => verdict === "at 2" && whole), []);
});

test("curves that come in pieces are asked for again, unless something newer is wanted", async () => {
  const { model, asked, shown, move } = opened({ pieces: 40 });
  move(2);
  await until(() => asked.length > 3);
  move(3);
  await until(() => model.get("verdict") === "at 3" && model.get("whole"));
  assert.equal(asked.filter(([demand, curves]) => demand === 3 && curves).length, 40);
  assert.deepEqual(shown.filter(([verdict, whole]) => verdict !== "at 3" && whole), []);
});

test("what is pinned is shown beside, and gone when it is no more", async () => {
  const { model, move } = opened();
  move(2);
  model.set("pinned", { demand: 1 });
  model.save_changes();
  await until(() => model.get("before").chart);
  assert.deepEqual(model.get("before"), { readings: [1], chart: { of: 1 } });
  model.set("pinned", {});
  model.save_changes();
  assert.deepEqual(model.get("before"), {});
});

test("a failure is told, and the next setting answered", async () => {
  const { model, move } = opened({ fails: ({ values }) => values.demand === 2 });
  move(2);
  await until(() => model.get("alarm"));
  assert.match(model.get("verdict"), /stopped at this setting \(it broke\)/);
  move(3);
  await until(() => model.get("verdict") === "at 3");
});

test("once all is shown, the next step of the control that moved is prepared", async () => {
  const { prepared, move } = opened();
  move(2);
  await until(() => prepared.length);
  assert.deepEqual(prepared, [{ values: { demand: 2 }, system: "SI", moved: "demand", old: 1, within: GLANCE }]);
});

test("nothing is prepared while curves are still to come, and nothing for a choice", async () => {
  const { model, asked, prepared, move } = opened({ pieces: 40 });
  move(2);
  await until(() => asked.length > 3);
  assert.deepEqual(prepared, []);
  move("shut");
  await until(() => model.get("verdict") === "at shut" && model.get("whole"));
  assert.deepEqual(prepared, []);
});
