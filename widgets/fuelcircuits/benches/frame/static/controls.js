// The controls: a slider with a number box, its unit, its bounds and a reset; a list of words;
// a box to tick. The model holds SI; the screen shows one side of the units switch.

import { inScale, numberTyped, siOf, withUnit } from "./measure.js";

// JupyterLab must not take keys typed here for shortcuts.
export function element(tag, facts = {}, ...children) {
  const made = document.createElement(tag);
  made.dataset.lmSuppressShortcuts = "true";
  for (const [name, value] of Object.entries(facts)) {
    if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else if (name in made && name !== "list") made[name] = value;
    else made.setAttribute(name, value);
  }
  made.append(...children);
  return made;
}

// Set only what differs: the browser would lay out the same words anew.
export function write(node, words) {
  if (node.textContent !== words) node.textContent = words;
}

export function put(model, name, value) {
  model.set(name, value);
  model.save_changes();
}

function mountNumber(spec, mark, model) {
  const id = `${mark}-set-${spec.name}`; // no id that a drawing may have
  const side = () => spec.sides[model.get("system")];
  const words = (si) => inScale(side(), si).toFixed(side().digits);
  const spoken = (si) => withUnit(words(si), side().unit);
  const set = (si) => put(model, spec.name, si);
  // Set what was slid or typed; say so where that is no number, or lies beyond an end.
  function take(text, shown) {
    const si = siOf(side(), shown, spec);
    const beyond = si !== undefined && Math.abs(inScale(side(), si) - shown) > 1e-9 * Math.max(1, Math.abs(shown));
    if (si === undefined) write(note, `“${text}” is no number.`);
    else write(note, beyond ? `${withUnit(text, side().unit)} is beyond the end: set to ${spoken(si)}.` : "");
    if (si !== undefined && words(si) !== words(model.get(spec.name))) set(si); // no rounding of what stands
    show();
  }
  const typed = () => {
    if (box.value !== words(model.get(spec.name))) take(box.value, numberTyped(box.value, side().unit));
  };
  const key = (event) => {
    const way = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (event.key === "Enter") typed();
    if (!way) return;
    event.preventDefault();
    const { low, high, step } = side();
    take(box.value, Math.min(Math.max(numberTyped(words(model.get(spec.name))) + way * step, low), high));
  };

  const label = element("label", { htmlFor: id, textContent: spec.label });
  const slider = element("input", { type: "range", id, oninput: () => take(slider.value, slider.valueAsNumber) });
  const box = element("input", { type: "text", role: "spinbutton", inputMode: "decimal", autocomplete: "off", onchange: typed, onkeydown: key });
  const note = element("p", { className: "fc-note", role: "status" });
  const unit = element("span", { className: "fc-unit" });
  const low = element("span", { className: "fc-bound" });
  const high = element("span", { className: "fc-bound" });
  const reset = element("button", { type: "button", onclick: () => set(spec.start) }, "↺");

  // What the units switch changes.
  function dress() {
    const { low: least, high: most, step, unit: name, digits } = side();
    Object.assign(slider, { min: least, max: most, step });
    box.setAttribute("aria-valuemin", least);
    box.setAttribute("aria-valuemax", most);
    box.setAttribute("aria-label", `${spec.label}, in ${name || "figures"}`);
    unit.textContent = name;
    low.textContent = least.toFixed(digits);
    high.textContent = most.toFixed(digits);
    reset.setAttribute("aria-label", `Reset ${spec.label} to ${spoken(spec.start)}`);
    reset.title = `Back to ${spoken(spec.start)}`;
    show();
  }

  function show() {
    const si = model.get(spec.name);
    for (const input of [slider, box]) if (input.value !== words(si)) input.value = words(si);
    box.setAttribute("aria-valuenow", words(si));
    for (const input of [slider, box]) input.setAttribute("aria-valuetext", spoken(si));
    reset.disabled = si === spec.start;
  }

  model.on(`change:${spec.name}`, show);
  model.on("change:system", dress);
  dress();
  const head = element("div", { className: "fc-head" }, label, box, unit);
  const track = element("div", { className: "fc-track" }, low, slider, high, reset);
  return {
    node: element("div", { className: "fc-control" }, head, track, note),
    reset() {
      write(note, "");
      model.set(spec.name, spec.start);
    },
    stop() {
      model.off(`change:${spec.name}`, show);
      model.off("change:system", dress);
    },
  };
}

function mountChoice(spec, mark, model) {
  const id = `${mark}-set-${spec.name}`; // no id that a drawing may have
  const options = spec.options.map(({ text }) => element("option", {}, text));
  const list = element("select", { id, onchange: () => set(spec.options[list.selectedIndex].value) }, ...options);
  const words = spec.options.find(({ value }) => value === spec.start).text;
  const facts = { type: "button", title: `Back to ${words}`, "aria-label": `Reset ${spec.label} to ${words}` };
  const reset = element("button", { ...facts, onclick: () => set(spec.start) }, "↺");

  const set = (value) => put(model, spec.name, value);
  function show() {
    const value = model.get(spec.name);
    list.selectedIndex = spec.options.findIndex((option) => option.value === value);
    reset.disabled = value === spec.start;
  }
  model.on(`change:${spec.name}`, show);
  show();
  const label = element("label", { htmlFor: id, textContent: spec.label });
  return {
    node: element("div", { className: "fc-control" }, element("div", { className: "fc-head" }, label, reset), list),
    reset: () => model.set(spec.name, spec.start),
    stop: () => model.off(`change:${spec.name}`, show),
  };
}

function mountSwitch(spec, mark, model) {
  const id = `${mark}-set-${spec.name}`; // no id that a drawing may have
  const box = element("input", { type: "checkbox", id, onchange: () => set(box.checked) });

  const set = (value) => put(model, spec.name, value);
  const show = () => (box.checked = model.get(spec.name));
  model.on(`change:${spec.name}`, show);
  show();
  const label = element("label", { htmlFor: id, textContent: spec.label });
  return {
    node: element("div", { className: "fc-control fc-switch" }, box, label),
    reset: () => model.set(spec.name, spec.start),
    stop: () => model.off(`change:${spec.name}`, show),
  };
}

const MOUNTS = { number: mountNumber, choice: mountChoice, switch: mountSwitch };
export const mountControl = (spec, mark, model) => MOUNTS[spec.kind](spec, mark, model);
