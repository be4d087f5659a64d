// A gauge: a round dial with a needle, or an upright tube; its reading stands below in words.

import { element, write } from "./controls.js";
import { inScale, ticks, valueAt, withUnit, wordsIn } from "./measure.js";
import { shape } from "./plot.js";

const DIAL = { from: 135, sweep: 270, middle: 62, ring: 50 };

const onDial = (part, radius) => {
  const turn = ((DIAL.from + DIAL.sweep * part) * Math.PI) / 180;
  return `${(DIAL.middle + radius * Math.cos(turn)).toFixed(2)} ${(DIAL.middle + radius * Math.sin(turn)).toFixed(2)}`;
};

function arc(from, to, radius) {
  const large = (to - from) * DIAL.sweep > 180 ? 1 : 0;
  return `M${onDial(from, radius)}A${radius} ${radius} 0 ${large} 1 ${onDial(to, radius)}`;
}

function marksOf(spec, system, count) {
  const [low, high] = [spec.low, spec.high].map((end) => inScale(spec.measure[system], end));
  const part = (value) => (value - low) / (high - low);
  const { step, marks } = ticks(low, high, count);
  const small = [];
  for (let n = Math.ceil(low / (step / 5) - 1e-6); n * (step / 5) <= high + step * 1e-6; n += 1) small.push(part((n * step) / 5));
  return { big: marks.map(({ at, text }) => ({ part: part(at), text })), small };
}

function dial(spec, system) {
  const { ring, middle } = DIAL;
  const { big, small } = marksOf(spec, system, 6);
  const svg = shape("svg", { viewBox: "0 0 124 112", class: "fc-dial", "aria-hidden": "true" });
  svg.append(shape("path", { d: arc(0, 1, ring), class: "rim" }));
  if (spec.good) {
    const [from, to] = spec.good.map((end) => (end - spec.low) / (spec.high - spec.low));
    svg.append(shape("path", { d: arc(Math.max(from, 0), Math.min(to, 1), ring - 4), class: "good" }));
  }
  for (const part of small) svg.append(shape("path", { d: `M${onDial(part, ring)}L${onDial(part, ring - 4)}`, class: "small" }));
  for (const { part, text } of big) {
    svg.append(shape("path", { d: `M${onDial(part, ring)}L${onDial(part, ring - 8)}`, class: "big" }));
    const [x, y] = onDial(part, ring - 18).split(" ").map(Number);
    svg.append(shape("text", { x, y: y + 3.5, "text-anchor": "middle" }, text));
  }
  svg.append(shape("text", { x: middle, y: middle + 34, "text-anchor": "middle", class: "unit" }, spec.measure[system].unit));
  const needle = shape("path", { d: `M${middle - 2.4} ${middle}L${middle} ${middle - ring + 7}L${middle + 2.4} ${middle}L${middle} ${middle + 11}Z`, class: "needle" });
  svg.append(needle, shape("circle", { cx: middle, cy: middle, r: 4, class: "hub" }));
  const turn = (part) => needle.setAttribute("transform", `rotate(${(DIAL.from + DIAL.sweep * part - 270).toFixed(2)} ${middle} ${middle})`);
  return { svg, turn };
}

function tube(spec, system) {
  const { big, small } = marksOf(spec, system, 5);
  const svg = shape("svg", { viewBox: "0 0 124 112", class: "fc-dial", "aria-hidden": "true" });
  const level = (part) => 100 - 90 * part;
  const liquid = shape("rect", { x: 44, width: 10, class: "liquid" });
  svg.append(liquid, shape("rect", { x: 44, y: 6, width: 10, height: 98, rx: 5, class: "rim" }));
  if (spec.good) {
    const [from, to] = spec.good.map((end) => level((end - spec.low) / (spec.high - spec.low)));
    svg.append(shape("path", { d: `M59 ${from}V${to}`, class: "good" }));
  }
  for (const part of small) svg.append(shape("path", { d: `M56 ${level(part)}h4`, class: "small" }));
  for (const { part, text } of big) {
    svg.append(shape("path", { d: `M56 ${level(part)}h8`, class: "big" }));
    svg.append(shape("text", { x: 68, y: level(part) + 3.5 }, text));
  }
  svg.append(shape("text", { x: 40, y: 14, "text-anchor": "end", class: "unit" }, spec.measure[system].unit));
  const turn = (part) => {
    liquid.setAttribute("y", level(part));
    liquid.setAttribute("height", 104 - level(part));
  };
  return { svg, turn };
}

export function mountGauges(host) {
  let look = "", needles = [];
  return {
    show(gauges, system) {
      host.hidden = gauges.length === 0;
      const next = JSON.stringify([system, gauges.map(({ value, ...rest }) => rest)]);
      if (next === look) return;
      look = next;
      needles = gauges.map((spec) => {
        const { svg, turn } = (spec.column ? tube : dial)(spec, system);
        const text = element("output", {});
        const scale = spec.measure[system];
        const off = spec.accuracy ? `± ${withUnit((spec.accuracy * scale.factor).toFixed(scale.digits), scale.unit)}` : "";
        const node = element("figure", { className: "fc-gauge" }, svg, element("figcaption", {}, element("span", {}, spec.label), text, element("small", {}, off)));
        return { node, turn, text };
      });
      host.replaceChildren(...needles.map(({ node }) => node));
    },
    mark(gauges, system, place) {
      gauges.forEach((spec, i) => {
        const value = valueAt(spec.value, place);
        write(needles[i].text, wordsIn(spec.measure[system], value));
        needles[i].turn(Math.min(Math.max((value - spec.low) / (spec.high - spec.low), 0), 1));
      });
    },
  };
}
