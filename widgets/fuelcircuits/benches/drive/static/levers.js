// What a driver has besides the pedals: gear, key, starter, and a hill that the road may have.

import { element } from "../../frame/static/controls.js";
import { choice } from "../../frame/static/switches.js";
import { HELD } from "./feet.js";

// A button that acts as long as it is held, by mouse, finger or key.
function heldButton(text, title, hold) {
  const button = element("button", { type: "button", title }, text);
  let held = false;
  const put = (on) => {
    if (on === held) return;
    held = on;
    button.setAttribute("aria-pressed", on);
    hold(on);
  };
  button.addEventListener("pointerdown", () => put(true));
  for (const name of ["pointerup", "pointerleave", "blur"]) button.addEventListener(name, () => put(false));
  button.addEventListener("keydown", (event) => HELD.includes(event.key) && !event.repeat && put(true));
  button.addEventListener("keyup", (event) => HELD.includes(event.key) && put(false));
  button.setAttribute("aria-pressed", false);
  return { button, put };
}

// `start` is called when the starter turns; `pedals` stand beside it.
export function mountLevers(mark, gears, start, pedals) {
  const gear = choice("Gear", mark, gears.map((name) => ({ text: name[0].toUpperCase() + name.slice(1), value: name })), "neutral", (now) => (chosen = now));
  const byLetter = Object.fromEntries(gears.map((name) => [name[0], name]));
  const key = element("input", { type: "checkbox", checked: true });
  const slope = element("input", { type: "range", min: -10, max: 15, value: 0, step: 1, id: `${mark}-slope`, oninput: tellSlope });
  const words = element("output", {});
  let chosen = "neutral", cranking = false;
  const starter = heldButton("Starter", "Hold it: by mouse, finger, Enter or Space, or key S", (on) => {
    cranking = on;
    if (!on) return;
    key.checked = true;
    start();
  });

  function tellSlope() {
    words.textContent = `${slope.value} in 100`;
    slope.setAttribute("aria-valuetext", words.textContent);
  }
  tellSlope();

  const hill = element("span", { className: "fc-hill" }, element("label", { htmlFor: slope.id }, "Hill "), slope, words);
  return {
    node: element("div", { className: "fc-row" }, gear.group, ...pedals, element("label", {}, key, " key on"), starter.button, hill),
    // What S and the gears' first letters do where the driver's hands are.
    keys: {
      down(letter) {
        if (letter === "s") starter.put(true);
        if (letter in byLetter) gear.show((chosen = byLetter[letter]));
      },
      up: (letter) => letter === "s" && starter.put(false),
    },
    // Gear, slope, key and starter as they stand.
    now: () => [chosen, Number(slope.value) / 100, key.checked, cranking && key.checked],
    // Show what a trace or a beginning does, and go on from there.
    show([, inGear, rise, on]) {
      gear.show(inGear);
      chosen = inGear;
      slope.value = Math.round(100 * rise);
      tellSlope();
      key.checked = on;
    },
  };
}
