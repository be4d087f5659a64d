// What the parts of a bench ask and tell, made of the table that a page carries.

import { alike, blend, nearest } from "./blend.js";

export function pageModel(about, table) {
  const state = { about, system: about.system ?? "SI", pinned: {}, at: 0, before: {}, ...about.start };
  const heard = {};
  const inputs = new Set([...Object.keys(about.start), "system", "pinned"]);
  const fire = (event) => (heard[event] ?? []).forEach((act) => act());
  let stale = true, moved = {};

  // Where nothing lies between, settings go to a place of the table, onwards where they moved.
  function settle() {
    if (alike(table, state)) return;
    for (const { name, places } of table.axes) {
      const onward = moved[name] && places[moved[name] > 0 ? places.findIndex((place) => place >= state[name]) : places.findLastIndex((place) => place <= state[name])];
      state[name] = onward ?? places[nearest(places, state[name])];
      fire(`change:${name}`);
    }
  }

  function compute() {
    settle();
    moved = {};
    const corners = alike(table, state);
    const words = blend(table.said, corners)[state.system];
    const { times, ...shown } = blend(table.shown, corners);
    const run = times ? { times, moments: words.moments } : {};
    Object.assign(state, shown, words, { run });
    if (!Object.keys(state.pinned).length) state.before = {};
    else if (!state.before.chart) state.before = { readings: state.readings, chart: state.chart };
  }

  const model = {
    get: (name) => state[name],
    set(name, value) {
      if (state[name] === value) return;
      if (typeof value === "number") moved[name] = value - state[name];
      state[name] = value;
      stale ||= inputs.has(name);
      fire(`change:${name}`);
    },
    save_changes() {
      if (stale) compute();
      stale = false;
      fire("change");
    },
    on: (event, act) => (heard[event] ??= []).push(act),
    off: (event, act) => (heard[event] = (heard[event] ?? []).filter((each) => each !== act)),
  };
  compute();
  stale = false;
  return model;
}
