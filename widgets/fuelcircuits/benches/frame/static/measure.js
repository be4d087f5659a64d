// Numbers with their units, and one moment out of a run.
// A measure has a scale for each side of the units switch: shown = factor * SI + offset.

// What stands where words or a number are still being worked out.
export const AWAITED = "…";

export const inScale = (scale, si) => scale.factor * si + scale.offset;

// The SI value of what somebody typed or slid to, inside the ends; nothing for no number.
export function siOf(scale, shown, { low, high }) {
  if (!Number.isFinite(shown)) return undefined;
  return Math.min(Math.max((shown - scale.offset) / scale.factor, low), high);
}

// The number that somebody typed, with a decimal point or comma and perhaps its unit; NaN for none.
export function numberTyped(text, unit) {
  const bare = text.trim().replace(/[\s\u00a0]/g, "");
  const digits = unit && bare.endsWith(unit.replace(/\s/g, "")) ? bare.slice(0, -unit.replace(/\s/g, "").length) : bare;
  return /^[+\-\u2212]?(\d+[.,]?\d*|[.,]\d+)(e[+-]?\d+)?$/i.test(digits) ? Number(digits.replace(",", ".").replace("\u2212", "-")) : NaN;
}

export function numberIn(scale, si) {
  const text = inScale(scale, si).toFixed(scale.digits);
  return Number(text) === 0 ? text.replace("-", "") : text;
}

// A degree sign stands at its number, any other unit after a space.
export const withUnit = (number, unit) => `${number}${unit === "°" ? "" : " "}${unit}`.trim();
export const wordsIn = (scale, si) => (si === null ? "–" : withUnit(numberIn(scale, si), scale.unit));

// The text of a line of the table; `brief` leaves the second SI unit out.
export function told({ measure, ways }, si, system, brief) {
  if (si === undefined) return AWAITED;
  if (ways && si !== null) return `${wordsIn(measure[system], Math.abs(si))} ${si > 0 ? ways[0] : ways[1]}`;
  const text = wordsIn(measure[system], si);
  return system === "SI" && measure.beside && !brief && si !== null ? `${text} (${wordsIn(measure.beside, si)})` : text;
}

// Where a time lies among the times of a run: an index with a part.
export function placeIn(times, time) {
  let low = 0, high = times.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (times[middle] <= time) low = middle;
    else high = middle;
  }
  const part = (time - times[low]) / (times[high] - times[low] || 1);
  return { low, high, part: Math.min(Math.max(part, 0), 1) };
}

// The value at that place: a list has one for each time, anything else stays as it is.
export function valueAt(value, place) {
  if (!Array.isArray(value)) return value;
  const { low, high, part } = place;
  if (value[low] === null || value[high] === null) return value[part < 0.5 ? low : high];
  return value[low] + (value[high] - value[low]) * part;
}

// Whole steps of 1, 2 or 5 times a power of ten, about `count` of them between two ends.
export function ticks(low, high, count) {
  const rough = Math.abs(high - low) / count;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5].find((each) => each * power >= rough * 0.8) ?? 10);
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const found = [];
  const [least, most] = low < high ? [low, high] : [high, low];
  for (let n = Math.ceil(least / step - 1e-6); n * step <= most + step * 1e-6; n += 1) {
    found.push({ at: n * step, text: (n * step + 0).toFixed(digits).replace(/^-(0(\.0*)?)$/, "$1") });
  }
  return { step, marks: found };
}
