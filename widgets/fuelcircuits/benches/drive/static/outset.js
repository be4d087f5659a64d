// What is settled before a drive: engine, weather, fault, journey; and drives that are kept,
// saved and loaded.

import { element, write } from "../../frame/static/controls.js";
import { inScale, siOf } from "../../frame/static/measure.js";

const HIDDEN = "hidden";
const BOUNDS = { altitude: { low: 0, high: 3000 }, outside: { low: 253.15, high: 313.15 } };

// `acts` is { begin, ride, alone, keep, drop, save, load, reveal, judge, journey }; `side` tells the side of the units.
export function mountOutset(mark, about, side, acts) {
  const option = (value, text) => element("option", { value }, text);
  const list = (name, label, options) => {
    const node = element("select", { id: `${mark}-${name}` }, ...options);
    return { node, row: element("div", { className: "fc-field" }, element("label", { htmlFor: node.id }, label), node) };
  };
  const number = (name, label) => {
    const node = element("input", { type: "number", id: `${mark}-${name}`, onchange: () => name in BOUNDS && (node.dataset.si = valueIn(name, { node })) });
    const unit = element("span", { className: "fc-unit" });
    return { node, unit, row: element("div", { className: "fc-field" }, element("label", { htmlFor: node.id }, label), element("span", {}, node, " ", unit)) };
  };
  const button = (text, act, facts = {}) => element("button", { type: "button", onclick: act, ...facts }, text);

  const engine = list("engine", "Engine", Object.entries(about.engines).map(([value, text]) => option(value, text)));
  const altitude = number("altitude", "Height above sea");
  const outside = number("outside", "Air outside");
  const fault = list("fault", "Fault", [option("", "none"), option(HIDDEN, "one that is not told"), ...Object.entries(about.cars).map(([value, text]) => option(value, text)), ...Object.keys(about.faults).map((name) => option(name, name.replaceAll("-", " ")))]);
  const severity = number("severity", "How bad");
  Object.assign(severity.node, { min: 0, max: 100, step: 5, value: 100 });
  severity.unit.textContent = "%";
  const meaning = element("p", { className: "fc-small" });
  const begin = button("Begin", () => acts.begin(settledNow()), { title: "Begin a drive with these settings" });
  const reveal = button("What is it?", revealed, { hidden: true });

  const journey = list("journey", "Set journey", Object.entries(about.journeys).map(([value, { title }]) => option(value, title)));
  const look = element("p", { className: "fc-small" });
  const beside = element("input", { type: "checkbox", checked: true });
  const watch = button("Watch it driven", () => ride(true));
  const own = button("Drive it yourself", () => ride(false), { title: "Same beginning, your own foot" });
  const keep = button("Keep to compare", () => acts.keep());
  const drop = button("Compare no more", () => acts.drop(), { hidden: true });
  const save = button("Save this drive", saved);
  const copy = button("Copy this drive", copied, { title: "On one line, to paste into an answer" });
  const file = element("input", { type: "file", accept: ".json,application/json", onchange: () => file.files.length && loaded(file.files[0]) });
  const fileLabel = element("label", { className: "fc-file" }, file, "Load a drive …");
  const judge = button("How did I drive?", judged, { title: "Hold this drive to the limits of the set journey" });
  const notes = element("div", { className: "fc-small", role: "status" });
  let draw = 0;

  const legend = (text, ...children) => element("fieldset", { className: "fc-outset-part" }, element("legend", {}, text), ...children);
  const node = element(
    "div",
    { className: "fc-outset" },
    legend("Before the drive", engine.row, outside.row, altitude.row, fault.row, severity.row, meaning, element("div", { className: "fc-row" }, begin, reveal)),
    legend("Journeys and drives", journey.row, look, element("label", {}, beside, " with a healthy car's drive dashed behind it"), element("div", { className: "fc-row" }, watch, own), element("div", { className: "fc-row" }, judge, keep, drop, save, copy, fileLabel), notes),
  );

  const measureOf = (name) => about.measures[name][side()];

  function put(name, { node: input, unit }, si) {
    const scale = measureOf(name);
    const [min, max] = [BOUNDS[name].low, BOUNDS[name].high].map((end) => Math.round(inScale(scale, end)));
    Object.assign(input, { min, max, step: name === "altitude" ? 100 : 1, value: inScale(scale, si).toFixed(scale.digits) });
    input.dataset.si = si;
    unit.textContent = scale.unit;
  }

  function valueIn(name, { node: input }) {
    const scale = measureOf(name), si = Number(input.dataset.si);
    if (input.value === inScale(scale, si).toFixed(scale.digits)) return si;
    return siOf(scale, input.valueAsNumber, BOUNDS[name]) ?? si;
  }

  // What is set, as the bench takes it. A hidden fault is drawn anew each time.
  function settledNow(anew = true) {
    const wrong = fault.node.value;
    if (wrong === HIDDEN && anew) draw = 1 + Math.floor(Math.random() * 1e9);
    const bad = Math.min(Math.max(severity.node.valueAsNumber || 0, 0), 100) / 100;
    const own = wrong && !(wrong in about.cars);
    return { engine: engine.node.value, altitude: valueIn("altitude", altitude), outside: valueIn("outside", outside), fault: wrong, severity: own ? bad : 1, draw: wrong === HIDDEN ? draw : 0 };
  }

  function describe() {
    const name = fault.node.value;
    const told = name === HIDDEN ? "One of the faults that this car can have, in its carburettor or around it; find it by driving." : about.faults[name];
    write(meaning, told ?? (name ? "A car to practise on, with a fault that is not told." : ""));
    severity.row.hidden = !name || name in about.cars;
  }

  async function ride(watched) {
    const name = journey.node.value;
    const answer = await acts.journey(name);
    if (answer.refused) return write(notes, answer.refused.join(" "));
    const { fault: wrong, severity: bad, draw: drawn } = settledNow();
    const settled = answer.outing.fault ? answer.outing : { ...answer.outing, fault: wrong, severity: bad, draw: drawn };
    const { title } = about.journeys[name];
    const behind = beside.checked;
    if (watched) acts.ride({ name: title, settled, feet: answer.feet, beside: behind });
    else acts.alone({ name: title, settled, feet: answer.feet, beside: behind });
  }

  async function revealed() {
    const { fault: name, words } = await acts.reveal();
    write(notes, name ? `${name.replaceAll("-", " ")}: ${words}` : words);
  }

  // One line a limit: whether it was kept, and the slip where it was not.
  async function judged() {
    const answer = await acts.judge(journey.node.value);
    if (!answer) return;
    if (answer.refused) return write(notes, answer.refused.join(" "));
    const lines = answer.verdicts.map(({ kept, words }) => element("li", {}, `${kept ? "Kept" : "Not kept"}: ${words}`));
    notes.replaceChildren(`${answer.kept} of ${answer.verdicts.length} limits kept.`, element("ul", {}, ...lines));
  }

  async function saved() {
    const { text } = await acts.save();
    const place = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    const link = element("a", { href: place, download: "drive.json" });
    link.click();
    URL.revokeObjectURL(place);
    write(notes, "Saved as drive.json: the outing, and the pedal step by step.");
  }

  async function copied() {
    const { line } = await acts.save();
    try {
      await navigator.clipboard.writeText(line);
      write(notes, "Copied: paste it into your answer, in the middle of the quotes.");
    } catch {
      const box = element("textarea", { readOnly: true, rows: 3, value: line, "aria-label": "The drive on one line" });
      notes.replaceChildren("Copy this line, and paste it into your answer:", box);
      box.select();
    }
  }

  async function loaded(chosen) {
    const answer = await acts.load(await chosen.text());
    file.value = "";
    if (answer.refused) return write(notes, answer.refused.join(" "));
    acts.ride({ name: "The loaded drive", settled: answer.outing, feet: answer.feet, beside: false });
  }

  const limited = () => (judge.hidden = !about.journeys[journey.node.value].limits);
  for (const each of [fault.node, journey.node]) each.addEventListener("change", () => (describe(), limited(), write(look, about.journeys[journey.node.value].look)));
  limited();
  write(look, about.journeys[journey.node.value].look);

  return {
    node,
    choose(name) {
      if (name in about.journeys) journey.node.value = name;
      limited();
      write(look, about.journeys[journey.node.value].look);
    },
    settled(outing) {
      engine.node.value = outing.engine;
      fault.node.value = outing.fault;
      severity.node.value = Math.round(100 * outing.severity);
      put("altitude", altitude, outing.altitude);
      put("outside", outside, outing.outside);
      reveal.hidden = outing.fault !== HIDDEN && !(outing.fault in about.cars);
      describe();
    },
    units() {
      put("altitude", altitude, valueBefore(altitude));
      put("outside", outside, valueBefore(outside));
    },
    compared(on) {
      drop.hidden = !on;
    },
  };

  function valueBefore({ node: input }) {
    return Number(input.dataset.si);
  }
}
