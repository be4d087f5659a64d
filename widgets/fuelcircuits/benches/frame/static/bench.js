// The bench on the page: drawing and plot above, controls and readings below.

import { element, mountControl, put, write } from "./controls.js";
import { mountDrawing } from "./drawing.js";
import { mountGauges } from "./gauge.js";
import { keep, kept } from "./keep.js";
import { AWAITED, placeIn, told, valueAt } from "./measure.js";
import { mountPlayer } from "./player.js";
import { mountPlot } from "./plot.js";
import { mountSharing } from "./sharing.js";
import { choice, followTheme } from "./switches.js";

const SHOWN = ["numbers", "readings", "gauges", "chart", "before", "run", "verdict", "alarm", "drawn", "plotted", "whole", "system", "pinned"];
const PAUSE = 800; // milliseconds of quiet before the readings are read out

// Lines of the table: built when their names change, else only their words.
function mountTable() {
  const node = element("table", { className: "fc-readings" });
  let look = "", rows = [];

  function build(readings, compared) {
    const next = JSON.stringify([compared, readings.map((line) => line.label)]);
    if (next === look) return;
    look = next;
    const heads = compared ? ["Reading", "Before", "Now"] : ["Reading", "Now"];
    const head = heads.map((text) => element("th", { scope: "col" }, text));
    rows = readings.map((line) => {
      const cells = heads.slice(1).map(() => element("td", {}));
      return { row: element("tr", {}, element("th", { scope: "row" }, line.label), ...cells), cells };
    });
    const body = element("tbody", {}, ...rows.map(({ row }) => row));
    node.replaceChildren(element("thead", {}, element("tr", {}, ...head)), body);
  }

  return {
    node,
    show(readings, before, system, place) {
      const compared = before !== undefined;
      build(readings, compared);
      const text = (line) => told(line, valueAt(line.value, place), system, compared);
      readings.forEach((line, i) => {
        const words = (compared ? [before[i], line] : [line]).map((each) => (each ? text(each) : ""));
        words.forEach((each, n) => write(rows[i].cells[n], each));
        rows[i].row.className = compared && words[0] !== words[1] ? "fc-changed" : "";
      });
    },
    lines: () => rows.map(({ row, cells }) => `${row.firstChild.textContent}: ${cells.at(-1).textContent}`),
  };
}

export function render({ model, el }) {
  const mark = `fc${Math.random().toString(36).slice(2, 10)}`; // every bench loads this text anew
  const about = model.get("about");
  const send = (name, value) => put(model, name, value);

  const stage = element("div", { className: "fc-drawing" });
  const drawing = mountDrawing(stage, about.drawing, mark);
  const sheet = element("div", { className: "fc-chart" });
  const plot = mountPlot(sheet, mark);
  const dials = element("div", { className: "fc-gauges", role: "group", "aria-label": "Gauges" });
  const gauges = mountGauges(dials);
  const readings = mountTable();
  const verdict = element("p", { className: "fc-verdict" });
  const voice = element("p", { className: "fc-voice", role: "status" });
  const drawn = element("p");
  const plotted = element("p");
  const controls = about.controls.map((spec) => mountControl(spec, mark, model));
  const player = about.time.pace && mountPlayer(about.time, mark, pass, (time) => send("at", time));

  const pinned = () => Object.keys(model.get("pinned")).length > 0;
  const pin = element("button", { type: "button", title: "Keep this state, dashed, to compare with", onclick: () => send("pinned", pinned() ? {} : Object.fromEntries(about.controls.map(({ name }) => [name, model.get(name)]))) }, "Pin");
  const reset = element("button", { type: "button", title: "Put every control back" }, "Reset");
  reset.addEventListener("click", () => {
    for (const control of controls) control.reset();
    model.save_changes();
  });
  // The side of the units that somebody chose is that of the next bench too.
  function pickSide(side) {
    keep("units", side);
    send("system", side);
  }
  const sides = [{ text: "SI", value: "SI" }, { text: "US shop", value: "US" }];
  const units = choice("Units", mark, sides, model.get("system"), pickSide);
  const views = [{ text: "Whole", value: undefined }, ...drawing.views.map(({ name, box }) => ({ text: name, value: box }))];
  const view = choice("View", mark, views, undefined, drawing.zoom);
  view.group.hidden = drawing.views.length === 0;

  const sharing = about.barred ? { node: "", show() {} } : mountSharing(about, model, mark, () => root);
  const asleep = element("p", { className: "fc-asleep" }, "This is how the bench stood when the notebook was saved. To move it, run the cells above and this one.");
  const root = element(
    "section",
    { className: "fc-bench", "aria-label": about.title },
    element("header", {}, element(about.heading ?? "h3", { className: "fc-title" }, about.title), view.group, units.group, pin, reset),
    asleep,
    verdict,
    element("div", { className: "fc-sight" }, stage, sheet),
    ...(player ? [player.node] : []),
    element(
      "div",
      { className: "fc-desk" },
      element("div", { className: "fc-controls", role: "group", "aria-label": "Controls" }, ...controls.map(({ node }) => node)),
      element("div", { className: "fc-table" }, readings.node),
    ),
    dials,
    element("details", {}, element("summary", {}, "Drawing and plot in words"), drawn, plotted),
    sharing.node,
    voice,
  );

  let timer = 0;
  function speak() {
    if (model.get("verdict") === AWAITED) return; // what comes is read out
    voice.textContent = [model.get("verdict"), player && player.words(), ...readings.lines().slice(0, 3)].filter(Boolean).join(" ");
  }
  function speakSoon() {
    clearTimeout(timer);
    timer = setTimeout(speak, PAUSE);
  }

  // Show one moment: everything that a run moves.
  function pass(time) {
    const times = model.get("run").times;
    const place = times ? placeIn(times, time) : null;
    const numbers = model.get("numbers");
    const now = place ? Object.fromEntries(Object.entries(numbers).map(([name, value]) => [name, valueAt(value, place)])) : numbers;
    drawing.aim(now, player && player.playing());
    plot.mark(place, place && time);
    gauges.mark(model.get("gauges"), model.get("system"), place);
    readings.show(model.get("readings"), model.get("before").readings, model.get("system"), place);
    if (!(player && player.playing())) speakSoon();
  }

  let last = {};
  const fresh = (...names) => names.some((name) => model.get(name) !== last[name]);

  // Show what Python sent; called once for each message.
  function refresh() {
    const system = model.get("system");
    if (fresh("chart", "before", "system")) plot.show(model.get("chart"), model.get("before").chart, system);
    if (fresh("whole")) sheet.setAttribute("aria-busy", model.get("whole") === false);
    // What only the run tells keeps its room while it is awaited, so that nothing below it jumps.
    verdict.style.minHeight = model.get("verdict") === AWAITED ? `${verdict.offsetHeight}px` : "";
    if (fresh("gauges", "system")) gauges.show(model.get("gauges"), system);
    write(verdict, model.get("verdict"));
    if (model.get("verdict") !== AWAITED) verdict.classList.toggle("fc-alarm", model.get("alarm"));
    if (fresh("drawn")) {
      drawn.textContent = model.get("drawn");
      drawing.svg.setAttribute("aria-label", model.get("drawn"));
    }
    if (fresh("plotted")) {
      plotted.textContent = model.get("plotted");
      plot.svg.setAttribute("aria-label", model.get("plotted"));
    }
    if (fresh("system")) units.show(system);
    if (fresh("pinned")) pin.setAttribute("aria-pressed", pinned());
    if (fresh("numbers", "readings", "gauges", "chart", "before", "run", "system")) {
      if (player) player.load(model.get("run"), last.run ? undefined : model.get("at"));
      else pass(null);
    }
    sharing.show();
    last = Object.fromEntries(SHOWN.map((name) => [name, model.get(name)]));
  }
  model.on("change", refresh);
  const asked = about.controls.map(({ name }) => `change:${name}`);
  for (const event of asked) model.on(event, drawing.await);
  refresh();

  const undress = followTheme(root);
  el.append(root);
  const side = kept("units");
  if (side && side !== model.get("system")) send("system", side);
  const rest = requestAnimationFrame(() => (root.querySelector(".fc-desk").inert = root.closest(".jupyter-widgets-disconnected") !== null));

  return () => {
    undress();
    cancelAnimationFrame(rest);
    clearTimeout(timer);
    drawing.stop();
    if (player) player.stop();
    for (const control of controls) control.stop();
    model.off("change", refresh);
    for (const event of asked) model.off(event, drawing.await);
  };
}
