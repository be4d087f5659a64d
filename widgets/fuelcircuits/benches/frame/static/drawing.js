// A drawing whose parts say which numbers place them:
//   <g data-set="transform = rotate([droop] 120 80)">   attribute = text with [numbers] in it
//   <text data-set="text = [turns] turns">              `text` sets the words
//   <path data-march="speed">                           dashes that move `speed` units a second
//   <view id="needle" viewBox="0 0 90 60" data-name="Needle and seat">   a part to zoom to
// Lines and flow marks keep their thickness when a view is enlarged, and words grow less; where the
// whole is shown small, words are as large in it as they must be to be read.
// Numbers glide to where Python puts them; with reduced motion they jump and dashes stand still.
// Dashes move thirty times a second, which looks the same as sixty and leaves time for the rest
// (no frame is asked for in between, for even an empty one costs the whole page its turn);
// while an answer is awaited they stand still, so that it is shown the sooner.

import { filled, rulesIn } from "./rules.js";

const GLIDE = 0.09; // seconds in which two thirds of the way to a new value is covered
const REST = 31; // milliseconds before the next frame is asked for when only dashes move
const PATIENCE = 300; // milliseconds for which an answer is awaited
export const calm = window.matchMedia("(prefers-reduced-motion: reduce)");

const rulesOf = (svg) => [...svg.querySelectorAll("[data-set]")].flatMap((part) => rulesIn(part.dataset.set).map((rule) => ({ part, ...rule })));

function place(found, numbers) {
  for (const each of found) {
    const words = filled(each.text, numbers);
    if (words === each.words) continue;
    each.words = words;
    if (each.name === "text") each.part.textContent = words;
    else each.part.setAttribute(each.name, words);
  }
}

// Ids in the text are made unique, so that two views of one bench do not share a pattern, and
// styles are set by script, which a page's policy allows where it forbids them in the text.
function parse(text, mark) {
  const own = text.replace(/(\bid="|url\(#|href="#)([\w-]+)/g, `$1${mark}-$2`).replaceAll(' style="', ' data-style="');
  const svg = document.importNode(new DOMParser().parseFromString(own, "image/svg+xml").documentElement, true);
  for (const part of svg.querySelectorAll("[data-style]")) part.style.cssText = part.dataset.style;
  return svg;
}

// How large words are in a drawing's own units, where 1 is as it was drawn: less in an enlarged
// frame, and never less than that on the screen, which is so many pixels wide and high.
export function typeOf(frame, whole, [wide, high]) {
  const zoomed = Math.max(frame[2] / whole[2], frame[3] / whole[3]) ** 0.7;
  const scale = Math.min(wide / frame[2], high / frame[3]);
  return scale > 0 ? Math.max(zoomed, 1 / scale) : zoomed;
}

export function mountDrawing(host, text, mark) {
  const svg = parse(text, mark);
  svg.setAttribute("role", "img");
  host.append(svg);
  const found = rulesOf(svg);
  const flows = [...svg.querySelectorAll("[data-march]")].map((part) => ({ part, offset: 0 }));
  const whole = svg.getAttribute("viewBox").split(/[\s,]+/).map(Number);
  svg.style.aspectRatio = `${whole[2]} / ${whole[3]}`;
  let shown = null, target = null, box = whole, frame = whole, size = [0, 0], last = 0, ticket = 0, seen = true, gliding = true, rest = 0, awaited = 0;

  const step = (from, to, share) => (Math.abs(to - from) < 1e-3 ? to : from + (to - from) * share);

  // Move everything one step nearer to its target; true while something is still on its way.
  function glide(share) {
    const moving = Object.keys(target).some((key) => shown[key] !== target[key]);
    const zooming = frame.some((edge, i) => edge !== box[i]);
    for (const key of Object.keys(target)) shown[key] = step(shown[key] ?? target[key], target[key], share);
    if (zooming) {
      frame = frame.map((edge, i) => step(edge, box[i], share));
      svg.setAttribute("viewBox", frame.join(" "));
      type();
    }
    if (moving) place(found, shown);
    return moving || zooming;
  }

  const type = () => svg.style.setProperty("--fc-type", typeOf(frame, whole, size));

  // Move the marks on every passage; true while some passage flows.
  function stream(passed) {
    let flowing = false;
    for (const flow of flows) {
      const speed = shown[flow.part.dataset.march];
      const seen = Math.abs(speed) < 0.05 ? "hidden" : "visible";
      if (flow.part.style.visibility !== seen) flow.part.style.visibility = seen;
      if (calm.matches || speed === 0) continue;
      flow.offset -= speed * passed;
      flow.part.style.strokeDashoffset = flow.offset;
      flowing = true;
    }
    return flowing;
  }

  const ask = () => (ticket = requestAnimationFrame(paint));

  function halt() {
    cancelAnimationFrame(ticket);
    clearTimeout(rest);
    clearTimeout(awaited);
    ticket = 0;
  }

  function paint(now) {
    ticket = 0;
    const passed = Math.min((now - last) / 1000, 0.1);
    last = now;
    gliding = glide(calm.matches ? 1 : 1 - Math.exp(-passed / GLIDE));
    const flowing = stream(passed);
    if (!seen) return;
    if (gliding) ask();
    else if (flowing) rest = setTimeout(ask, REST);
  }

  function wake() {
    clearTimeout(awaited);
    gliding = true;
    if (ticket || !target) return;
    clearTimeout(rest);
    last = performance.now() - 16;
    ask();
  }

  const watch = new IntersectionObserver(([entry]) => {
    seen = entry.isIntersecting;
    wake();
  });
  watch.observe(svg);
  const fit = new ResizeObserver(([{ contentRect }]) => {
    size = [contentRect.width, contentRect.height];
    type();
  });
  fit.observe(svg);

  return {
    svg,
    views: [...svg.querySelectorAll("view")].map((view) => ({
      name: view.dataset.name,
      box: view.getAttribute("viewBox").split(/[\s,]+/).map(Number),
    })),
    // Go to these numbers, or be there at once; what has none stays where it is.
    aim(numbers, jump) {
      target = { ...target, ...numbers };
      if (jump || !shown) place(found, (shown = { ...target }));
      wake();
    },
    zoom(view) {
      box = view ?? whole;
      wake();
    },
    await() {
      halt();
      awaited = setTimeout(wake, PATIENCE);
    },
    stop() {
      halt();
      watch.disconnect();
      fit.disconnect();
    },
  };
}
