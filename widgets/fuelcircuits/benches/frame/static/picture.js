// A bench as one SVG that stands alone: title, drawing, plot, what it says, and its readings.
// Every part carries its own look, in the colours of the light theme, so any program shows it.

import { shape } from "./plot.js";

const SHEET = { width: 900, top: 34, sight: 340, line: 17, wrap: 112 };
const LOOK = ["fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-dashoffset", "stroke-linecap", "stroke-linejoin", "paint-order", "vector-effect", "opacity", "visibility", "font-size", "font-weight", "font-family"];

// A copy whose every part has the look that it has on the page.
function dressed(svg) {
  const copy = svg.cloneNode(true);
  const parts = [svg, ...svg.querySelectorAll("*")], copies = [copy, ...copy.querySelectorAll("*")];
  parts.forEach((part, i) => {
    if (part.closest("style, view")) return;
    const look = getComputedStyle(part);
    for (const name of LOOK) copies[i].setAttribute(name, look.getPropertyValue(name));
    for (const name of ["class", "data-set", "data-march", "data-lm-suppress-shortcuts"]) copies[i].removeAttribute(name);
  });
  return copy;
}

// The page's colours are those of the light theme while `draw` runs; nothing of it is painted.
function inLight(root, draw) {
  const { theme } = root.dataset;
  root.dataset.theme = "light";
  root.style.setProperty("--fc-sheet", "#ffffff");
  try {
    return draw();
  } finally {
    root.dataset.theme = theme;
    root.style.removeProperty("--fc-sheet");
  }
}

function wrapped(text, width) {
  const lines = [""];
  for (const word of text.split(/\s+/)) {
    if ((lines.at(-1) + word).length > width) lines.push("");
    lines[lines.length - 1] += `${lines.at(-1) ? " " : ""}${word}`;
  }
  return lines;
}

export function pictureOf(root) {
  const { width, top, sight, line, wrap } = SHEET;
  const text = (place) => root.querySelector(place)?.textContent ?? "";
  const said = wrapped(text(".fc-verdict"), wrap);
  const keys = [...root.querySelectorAll(".fc-legend li")];
  const rows = [...root.querySelectorAll(".fc-readings tbody tr")].map((row) => [...row.children].map((cell) => cell.textContent));
  const half = Math.ceil(rows.length / 2);
  const keyed = top + sight + line, words = keyed + line * Math.ceil(keys.length / 4), table = words + line * (said.length + 0.5);
  const height = table + line * (half + 1);
  const label = [text(".fc-title"), text(".fc-verdict"), ...[...root.querySelectorAll("details p")].map((each) => each.textContent)].join(" ");
  const sheet = shape("svg", { viewBox: `0 0 ${width} ${height}`, width, height, role: "img", "aria-label": label, "font-family": "system-ui, sans-serif" });
  const write = (line, x, y, size = 12, weight = "normal") => sheet.append(shape("text", { x, y, "font-size": size, "font-weight": weight, fill: "#1f2a33" }, line));
  const put = (svg, facts) => {
    for (const [name, value] of Object.entries(facts)) svg.setAttribute(name, value);
    sheet.append(svg);
  };
  sheet.append(shape("rect", { width, height, fill: "#ffffff" }));
  write(text(".fc-title"), 8, 20, 15, "bold");
  inLight(root, () => {
    put(dressed(root.querySelector(".fc-drawing svg")), { x: 0, y: top, width: 450, height: sight });
    put(dressed(root.querySelector(".fc-plot")), { x: 460, y: top, width: 440, height: sight });
    keys.forEach((key, i) => {
      const x = 8 + 222 * (i % 4), y = keyed + line * Math.floor(i / 4);
      put(dressed(key.querySelector("svg")), { x, y: y - 10, width: 27, height: 12 });
      write(key.textContent, x + 34, y);
    });
  });
  said.forEach((words_, i) => write(words_, 8, words + line * (i + 0.5), 12.5, "bold"));
  rows.forEach(([name, ...values], i) => write(`${name}: ${values.join(" → ")}`, 8 + 450 * Math.floor(i / half), table + line * (1 + (i % half))));
  return new XMLSerializer().serializeToString(sheet);
}

export function save(name, text, type) {
  const place = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  Object.assign(link, { href: place, download: name });
  link.click();
  URL.revokeObjectURL(place);
}
