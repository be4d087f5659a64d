// The plot: axes, curves, bands and dots drawn from the chart's data as SVG.
// Points are ten-thousandths of the axes, so a change of units only renames the ticks.

import { element } from "./controls.js";
import { inScale, ticks, valueAt } from "./measure.js";

export const FINE = 10000;
const PLOT = { width: 460, height: 352, left: 50, right: 14, top: 2, title: 23, gap: 12, foot: 37 };
const SLIM = { ...PLOT, width: 352, height: 308, left: 44, right: 10 }; // on a phone, where it is shown as large as it is

export function shape(tag, facts = {}, ...children) {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(facts)) made.setAttribute(name, value);
  made.append(...children);
  return made;
}

const titleOf = (axis, system) => [axis.label, axis.measure[system].unit && `[${axis.measure[system].unit}]`].filter(Boolean).join(" ");

// Where each panel lies: left, top, width, height.
function frames(panels, { width, height, left, right, top, title, gap, foot }) {
  const room = height - top - foot - panels.length * title - (panels.length - 1) * gap;
  const shares = panels.reduce((sum, panel) => sum + panel.share, 0);
  let y = top;
  return panels.map((panel) => {
    const frame = { x: left, y: y + title, width: width - left - right, height: (room * panel.share) / shares };
    y = frame.y + frame.height + gap;
    return frame;
  });
}

function axisMarks(axis, system, count) {
  const [low, high] = [axis.low, axis.high].map((end) => inScale(axis.measure[system], end));
  return ticks(low, high, count).marks.map(({ at, text }) => ({ part: (at - low) / (high - low), text }));
}

function grid(chart, places, system) {
  const made = [];
  const text = (words, x, y, anchor, className = "tick") => made.push(shape("text", { x, y, "text-anchor": anchor, class: className }, words));
  const line = (d, className) => made.push(shape("path", { d, class: className }));
  const across = axisMarks(chart.x, system, 6);
  chart.panels.forEach((panel, i) => {
    const { x, y, width, height } = places[i];
    const up = axisMarks(panel.y, system, Math.max(3.4, Math.min(6, height / 34)));
    for (const { part } of across) line(`M${x + part * width} ${y}V${y + height}`, "grid");
    for (const { part, text: words } of up) {
      const level = y + height * (1 - part);
      line(`M${x} ${level}H${x + width}`, "grid");
      text(words, x - 7, level + 4, "end");
    }
    line(`M${x} ${y}V${y + height}H${x + width}`, "axis");
    text(titleOf(panel.y, system), 2, y - 11, "start", "title");
  });
  const last = places[places.length - 1];
  const floor = last.y + last.height;
  for (const { part, text: words } of across) text(words, last.x + part * last.width, floor + 15, "middle");
  text(titleOf(chart.x, system), last.x + last.width, floor + 32, "end", "title");
  return made;
}

// The path of a curve whose points lie on the axes `from`, in a panel with the axes `onto`.
export function pathOf(curve, frame, from, onto) {
  const move = (name) => {
    const { low, high } = onto[name];
    const span = high - low;
    const shift = (from[name].low - low) / span, stretch = (from[name].high - from[name].low) / span / FINE;
    return (point) => shift + point * stretch;
  };
  const across = move("x"), up = move("y");
  let d = "", pen = "M";
  for (let i = 0; i < curve.x.length; i += 1) {
    if (curve.x[i] === null || curve.y[i] === null) {
      pen = "M";
      continue;
    }
    const x = frame.x + across(curve.x[i]) * frame.width;
    const y = frame.y + (1 - up(curve.y[i])) * frame.height;
    d += `${pen}${x.toFixed(1)} ${Math.min(Math.max(y, -999), 1999).toFixed(1)}`;
    pen = "L";
  }
  return d;
}

// The curves of each panel with their axes. One that is still being worked out stays as it was
// last drawn, on the axes that it had then; nothing if it was not there.
export function linesOf(chart, last) {
  return chart.panels.map((panel, i) =>
    panel.curves.map((curve, n) => {
      if (curve.x) return { curve, from: { x: chart.x, y: panel.y } };
      const old = last[i]?.[n];
      return old?.curve.label === curve.label && old.curve.role === curve.role ? old : undefined;
    }),
  );
}

// The chart with the axes it had, where the new ones are still being worked out.
export function withAxes(chart, last) {
  const panels = chart.panels.map((panel, i) => (panel.y.high === null && last ? { ...panel, y: last.panels[i].y } : panel));
  return { ...chart, panels };
}

function redraw(line, d) {
  if (line.getAttribute("d") !== d) line.setAttribute("d", d);
}

function legend(chart, before) {
  const keys = new Map();
  for (const panel of chart.panels) for (const { label, role } of panel.curves) if (label) keys.set(label, role);
  if (chart.panels.some((panel) => panel.dot)) keys.set("now", "dot");
  for (const panel of chart.panels) if (panel.band) keys.set(panel.band.label, "band");
  if (before) keys.set("before", "before");
  return [...keys].map(([label, role]) => {
    const swatch = {
      dot: () => shape("circle", { cx: 13, cy: 6, r: 4.5, class: "dot" }),
      band: () => shape("path", { d: "M2 11L9 1M9 11L16 1M16 11L23 1", class: "hatch" }),
    };
    const drawn = swatch[role]?.() ?? shape("path", { d: "M0 6H27", class: `curve ${role}` });
    return element("li", {}, shape("svg", { width: 27, height: 12, viewBox: "0 0 27 12", "aria-hidden": "true" }, drawn), label);
  });
}

export function mountPlot(host, mark) {
  const small = window.matchMedia("(max-width: 679px)");
  const keys = element("ul", { className: "fc-legend" });
  const ground = shape("g"), layer = shape("g");
  const cursor = shape("path", { class: "cursor", visibility: "hidden" });
  const hatch = shape("pattern", { id: `${mark}-hatch`, width: 7, height: 7, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" }, shape("path", { d: "M0 0V7", class: "hatch" }));
  const clips = shape("defs", {}, hatch);
  const svg = shape("svg", { class: "fc-plot", role: "img" }, clips, ground, layer, cursor);
  host.append(keys, svg);
  let look = "", places = [], parts = [], lines = [], drawn = null;

  // Axes, names and empty parts: only when they differ from what stands there.
  function dress(chart, before, system) {
    const names = chart.panels.map((panel) => [panel.y, panel.share, panel.curves.map((curve) => [curve.role, curve.label]), panel.band?.label, !!panel.dot]);
    const room = small.matches ? SLIM : PLOT;
    const next = JSON.stringify([chart.x, names, !!before, system, room]);
    if (next === look) return;
    look = next;
    svg.setAttribute("viewBox", `0 0 ${room.width} ${room.height}`);
    places = frames(chart.panels, room);
    ground.replaceChildren(...grid(chart, places, system));
    keys.replaceChildren(...legend(chart, before));
    clips.replaceChildren(hatch);
    layer.replaceChildren();
    parts = chart.panels.map((panel, i) => {
      const { x, y, width: w, height: h } = places[i];
      clips.append(shape("clipPath", { id: `${mark}-panel-${i}` }, shape("rect", { x, y: y - 1, width: w, height: h + 2 })));
      const inside = shape("g", { "clip-path": `url(#${mark}-panel-${i})` });
      const line = (className) => inside.appendChild(shape("path", { class: className }));
      const made = {
        band: inside.appendChild(shape("rect", { x, width: w, fill: `url(#${mark}-hatch)`, visibility: "hidden" })),
        edge: line("edge"),
        olds: (before?.panels[i]?.curves ?? []).map(() => line("curve before")),
        curves: panel.curves.map((curve) => line(`curve ${curve.role}`)),
      };
      layer.append(inside);
      const dot = (className) => layer.appendChild(shape("circle", { r: 5, class: className, visibility: "hidden" }));
      return Object.assign(made, { old: dot("dot old"), dot: dot("dot") });
    });
  }

  function putDot(circle, dot, frame, place) {
    const [x, y] = dot ? dot.map((each) => valueAt(each, place)) : [null, null];
    const inside = x !== null && y !== null && x >= -1 && x <= FINE + 1 && y >= -1 && y <= FINE + 1;
    circle.setAttribute("visibility", inside ? "visible" : "hidden");
    if (!inside) return;
    circle.setAttribute("cx", (frame.x + (x / FINE) * frame.width).toFixed(1));
    circle.setAttribute("cy", (frame.y + (1 - y / FINE) * frame.height).toFixed(1));
  }

  function band(part, low, frame) {
    const seen = low !== undefined && low !== null && low < FINE;
    part.band.setAttribute("visibility", seen ? "visible" : "hidden");
    part.edge.setAttribute("visibility", seen ? "visible" : "hidden");
    if (!seen) return;
    const level = frame.y + (1 - Math.max(low, 0) / FINE) * frame.height;
    part.band.setAttribute("y", frame.y);
    part.band.setAttribute("height", Math.max(level - frame.y, 0));
    part.edge.setAttribute("d", `M${frame.x} ${level.toFixed(1)}h${frame.width}`);
  }

  return {
    svg,
    show(said, before, system) {
      const chart = withAxes(said, drawn?.chart);
      dress(chart, before, system);
      drawn = { chart, before };
      lines = linesOf(chart, lines);
      chart.panels.forEach((panel, i) => {
        const onto = { x: chart.x, y: panel.y };
        lines[i].forEach((line, n) => redraw(parts[i].curves[n], line ? pathOf(line.curve, places[i], line.from, onto) : ""));
        const old = before?.panels[i];
        const from = old && { x: before.x, y: old.y };
        parts[i].olds.forEach((line, n) => redraw(line, pathOf(old.curves[n], places[i], from, onto)));
        band(parts[i], panel.band?.low, places[i]);
      });
    },
    // Put the dots, and in a run the line that marks the time.
    mark(place, time) {
      const { chart, before } = drawn;
      chart.panels.forEach((panel, i) => {
        putDot(parts[i].dot, panel.dot, places[i], place);
        putDot(parts[i].old, before?.panels[i]?.dot, places[i], place);
      });
      cursor.setAttribute("visibility", time === null ? "hidden" : "visible");
      if (time === null) return;
      const part = (time - chart.x.low) / (chart.x.high - chart.x.low);
      cursor.setAttribute("d", places.map(({ x, y, width, height }) => `M${(x + part * width).toFixed(1)} ${y - 3}v${height + 3}`).join(""));
    },
  };
}
