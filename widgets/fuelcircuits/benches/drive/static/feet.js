// Clutch and brake: each is down as long as it is held, by mouse, finger or key. A short press
// leaves it down until the next, so that one hand is enough.

import { element } from "../../frame/static/controls.js";

export const HELD = [" ", "Enter"];
const SHORT = 300; // milliseconds of a press that leaves it down

// A pedal as a button; `press` and `release` are for whoever has a key of its own for it.
function footButton(name, key) {
  const node = element("button", { type: "button", className: "fc-foot", title: `Hold it, or press it shortly and it stays down; key ${key}` }, name);
  let down = false, stood = false, since = 0;

  function put(on) {
    if (on === down) return;
    down = on;
    node.setAttribute("aria-pressed", on);
  }
  function press() {
    [stood, since] = [down, performance.now()];
    put(true);
  }
  function release() {
    if (since && (stood || performance.now() - since > SHORT)) put(false);
    since = 0;
  }
  const leave = () => since && (put(false), (since = 0));

  node.setAttribute("aria-pressed", false);
  node.addEventListener("pointerdown", (event) => (node.setPointerCapture(event.pointerId), press()));
  for (const end of ["pointerup", "pointercancel"]) node.addEventListener(end, release);
  node.addEventListener("blur", leave);
  node.addEventListener("keydown", (event) => HELD.includes(event.key) && !event.repeat && press());
  node.addEventListener("keyup", (event) => HELD.includes(event.key) && release());
  return {
    node,
    press,
    release,
    wanted: () => Number(down),
    set: (share) => put(share > 0.5),
    show: (share) => node.style.setProperty("--fc-down", `${Math.round(100 * share)}%`),
  };
}

export function mountFeet() {
  const feet = { c: footButton("Clutch", "C"), b: footButton("Brake", "B") };
  const both = Object.values(feet);
  return {
    nodes: both.map(({ node }) => node),
    // What C and B do where the driver's hands are.
    keys: { down: (key) => feet[key]?.press(), up: (key) => feet[key]?.release() },
    wanted: () => both.map((foot) => foot.wanted()),
    set: (shares) => both.forEach((foot, i) => foot.set(shares[i])),
    show: (shares) => both.forEach((foot, i) => foot.show(shares[i])),
  };
}
