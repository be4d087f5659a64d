// The running strip: fuel by circuit, lambda, speed and pedal over the last seconds, as a chart
// and as a table.

import { element } from "../../frame/static/controls.js";
import { numberIn } from "../../frame/static/measure.js";
import { FINE } from "../../frame/static/plot.js";

export const WINDOW = 20; // seconds
const FUELS = [
  ["screw", "screws", "lead"],
  ["slot", "slots", "third"],
  ["main", "main", "other"],
  ["power", "rods", "fifth"],
  ["pump", "pump", "fourth"],
];
const DOTS = 260; // most points of a curve
const NOUGHT = 1e-6; // kg/s of air from which on there is a mixture

// The part of rows that rise in time which lies in the window before `time`.
export function windowOf(rows, time, at) {
  let low = 0, high = rows.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (rows[middle][at] < time - WINDOW) low = middle + 1;
    else high = middle;
  }
  let end = low;
  while (end < rows.length && rows[end][at] <= time + 1e-9) end += 1;
  return rows.slice(Math.max(low - 1, 0), end);
}

// `columns` are the names of a row's entries, `measures` those of the bench, `top` the end of the
// speed's axis and `most` that of the fuel's.
export function stripOf(columns, measures, top) {
  const at = Object.fromEntries(columns.map((name, i) => [name, i]));
  const axis = (label, name, low, high) => ({ label, measure: measures[name], low, high });
  const axes = [(most) => axis("Fuel", "fuel", 0, most), () => axis("Lambda", "mixture", 0.5, 1.7), () => axis("Speed", "speed", 0, top), () => axis("Pedal", "pedal", 0, 1)];
  const shares = [1.9, 1.2, 1, 0.75];
  const time = axis("Time before now", "time", -WINDOW, 0);

  // Of many rows every other one, or fewer: as many as there are dots to draw them with.
  const thinned = (rows) => {
    const every = Math.ceil(rows.length / DOTS);
    return rows.filter((_, i) => (rows.length - 1 - i) % every === 0);
  };

  function curve(rows, now, name, { low, high }, label, role) {
    const x = [], y = [];
    for (const row of thinned(rows)) {
      x.push(((row[at.time] - now + WINDOW) / WINDOW) * FINE);
      const seen = name !== "mixture" || row[at.air] > NOUGHT;
      y.push(seen ? ((row[at[name]] - low) / (high - low)) * FINE : null);
    }
    return { role, label, x, y };
  }

  // The least end of the fuel's axis, in whole grams a second, that holds the window.
  function most(rows) {
    let high = 0.9e-3;
    for (const row of rows) for (const [name] of FUELS) high = Math.max(high, row[at[name]]);
    return [1e-3, 2e-3, 4e-3, 8e-3, 16e-3].find((end) => end > high) ?? 32e-3;
  }

  function chartOf(rows, now, panels) {
    return { x: time, panels: panels.map(({ y, curves }, i) => ({ y, share: shares[i], curves: curves(y).map(([name, label, role]) => curve(rows, now, name, y, label, role)) })) };
  }

  return {
    at,
    // The chart of rows up to a time; `kept` are rows of another drive, to compare with.
    chart(rows, now, kept) {
      const seen = windowOf(rows, now, at.time);
      const ends = axes.map((make) => make(most(seen)));
      const lines = [() => FUELS, () => [["mixture", "", "lead"]], () => [["speed", "", "lead"]], () => [["pedal", "", "lead"]]];
      const own = chartOf(seen, now, ends.map((y, i) => ({ y, curves: lines[i] })));
      if (!kept) return { own };
      const old = windowOf(kept, now, at.time);
      const olds = [() => [], ...lines.slice(1)];
      return { own, before: chartOf(old, now, ends.map((y, i) => ({ y, curves: olds[i] }))) };
    },
  };
}

const COLUMNS = [["time", "time"], ["pedal", "pedal"], ["speed", "speed"], ["vacuum", "vacuum"], ["mixture", "mixture"], ...FUELS.map(([name]) => [name, "fuel"])];
const HEADS = { time: "Time", pedal: "Pedal", speed: "Speed", vacuum: "Vacuum", mixture: "Lambda", screw: "Screws", slot: "Slots", main: "Main", power: "Rods", pump: "Pump" };

// The strip as a table, a line for each whole second of it.
export function mountStripTable(measures, at) {
  const body = element("tbody", {});
  const head = element("tr", {});
  const node = element("table", { className: "fc-strip" }, element("caption", {}, "The strip, second by second, the latest first"), element("thead", {}, head), body);
  const shown = (system, name, measure, row) => (name === "mixture" && row[at.air] <= NOUGHT ? "–" : numberIn(measures[measure][system], row[at[name]]));
  return {
    node,
    show(rows, now, system) {
      const unit = (measure) => measures[measure][system].unit;
      head.replaceChildren(...COLUMNS.map(([name, measure]) => element("th", { scope: "col" }, `${HEADS[name]}${unit(measure) ? ` [${unit(measure)}]` : ""}`)));
      const seen = windowOf(rows, now, at.time);
      const whole = seen.filter((row, i) => i === seen.length - 1 || Math.floor(row[at.time] + 1e-6) > Math.floor((seen[i - 1]?.[at.time] ?? -1) + 1e-6));
      body.replaceChildren(
        ...whole.reverse().map((row) => {
          const [first, ...cells] = COLUMNS.map(([name, measure]) => shown(system, name, measure, row));
          return element("tr", {}, element("th", { scope: "row" }, first), ...cells.map((text) => element("td", {}, text)));
        }),
      );
    },
  };
}
