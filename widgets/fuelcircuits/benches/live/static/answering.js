// What the parts of a bench ask and tell, answered by Python in the page: the point with drawing
// and words first, the curves once the controls have been still for a moment. An answer to what
// is no longer asked is not shown, but for a point, so that a drawing follows a slider. Curves are
// worked out piece by piece: what takes long keeps no newer point waiting. Once all is shown, the
// next step of the control that moved is prepared.

const MOMENT = 80; // milliseconds without a change before curves are asked for
const PIECE = 0.05; // seconds after which Python rests from curves, to hear of what is newer
export const GLANCE = 0.01; // likewise from what nobody has asked for yet

// `ask` takes { values, system, curves, within }, `prepare` takes { values, system, moved, old, within };
// `part` is { about, start, first, values, pinned, at }.
export function answeredModel({ about, start, first, values, pinned, at = 0 }, system, ask, prepare = () => {}) {
  const state = { about, system, pinned: pinned ?? {}, at, before: {}, ...first, ...start, ...values };
  const names = about.controls.map(({ name }) => name);
  const asked = new Set([...names, "system"]);
  const heard = {};
  const fire = (event) => (heard[event] ?? []).forEach((act) => act());
  const valuesNow = () => Object.fromEntries(names.map((name) => [name, state[name]]));
  const isPinned = () => Object.keys(state.pinned).length > 0;
  let wanted = names.some((name) => state[name] !== start[name]) ? 1 : 0;
  let shown = 0, working = false, last = 0, moved, compared, wake = () => {};

  // Wait for so many milliseconds, or until a control moves.
  const pause = (time) => new Promise((resolve) => setTimeout((wake = resolve), time));

  function take(answer) {
    Object.assign(state, answer);
    fire("change");
  }

  function refused(error) {
    return { alarm: true, whole: true, verdict: `The model has stopped at this setting (${error.message}). Put a control back.` };
  }

  const answer = (values, curves, within) => ask({ values, system: state.system, curves, within }).catch(refused);

  // Show the newest setting: its point, and if nothing newer has come by then its curves.
  async function showNewest() {
    const number = wanted;
    take(await answer(valuesNow(), false));
    while (number === wanted && !state.whole) {
      const still = performance.now() - last;
      if (still < MOMENT) await pause(MOMENT - still);
      else {
        const all = await answer(valuesNow(), true, PIECE);
        if (number === wanted && all.whole) take(all);
      }
    }
    if (number !== wanted) return;
    shown = number;
    if (moved) prepare({ values: valuesNow(), system: state.system, ...moved, within: GLANCE });
  }

  async function showPinned() {
    compared = state.pinned;
    const { readings, chart } = await answer(state.pinned, true);
    if (compared === state.pinned && chart) take({ before: { readings, chart } });
  }

  async function work() {
    if (working) return;
    working = true;
    while (shown < wanted || (isPinned() && compared !== state.pinned)) await (shown < wanted ? showNewest() : showPinned());
    working = false;
  }

  const model = {
    get: (name) => state[name],
    set(name, value) {
      if (state[name] === value) return;
      if (names.includes(name)) moved = typeof value === "number" ? { moved: name, old: state[name] } : undefined;
      state[name] = value;
      if (asked.has(name)) {
        wanted += 1;
        state.whole = false;
        last = performance.now();
        wake();
      }
      if (name === "pinned") state.before = {};
      fire(`change:${name}`);
    },
    save_changes() {
      fire("change");
      fire("saved");
      work();
    },
    on: (event, act) => (heard[event] ??= []).push(act),
    off: (event, act) => (heard[event] = (heard[event] ?? []).filter((each) => each !== act)),
    values: valuesNow,
    work,
  };
  return model;
}
