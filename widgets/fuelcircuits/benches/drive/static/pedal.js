// The pedal: a bar that is held by mouse or finger, or by keys. When it is let go it comes back,
// unless it is to stay where it is.

import { element } from "../../frame/static/controls.js";

const KEYS = { ArrowRight: 0.01, ArrowUp: 0.01, ArrowLeft: -0.01, ArrowDown: -0.01, PageUp: 0.1, PageDown: -0.1 };

export function mountPedal(mark) {
  const fill = element("div", { className: "fc-pedal-fill" });
  const words = element("output", { className: "fc-pedal-words", htmlFor: `${mark}-pedal` });
  const scale = element("div", { className: "fc-pedal-scale", ariaHidden: "true" }, ...["0", "25", "50", "75", "100 %"].map((text) => element("span", {}, text)));
  const bar = element("div", { id: `${mark}-pedal`, className: "fc-pedal-bar", role: "slider", tabIndex: 0, "aria-label": "Pedal", "aria-valuemin": 0, "aria-valuemax": 100, "aria-orientation": "horizontal" }, fill, words);
  const stay = element("input", { type: "checkbox" });
  const keys = element("span", { className: "fc-keys" }, " Arrow keys move it by 1 %, with Shift by 0.1 %, and it then stays. Hold F for the floor, 0 lets go. C clutch, B brake, N, L, T gears, S starter.");
  const help = element("p", { className: "fc-small", id: `${mark}-pedal-help` }, "Press and drag.", keys);
  const node = element("div", { className: "fc-pedal" }, element("div", { className: "fc-head" }, element("span", { className: "fc-pedal-title" }, "Pedal"), element("label", {}, stay, " stays where it is")), bar, scale, help);
  bar.setAttribute("aria-describedby", help.id);
  let wanted = 0, floored = false, pointer = null, shownText = "";

  const clamp = (value) => Math.min(Math.max(value, 0), 1);
  function take(event) {
    const { left, width } = bar.getBoundingClientRect();
    wanted = clamp((event.clientX - left) / width);
  }
  bar.addEventListener("pointerdown", (event) => {
    pointer = event.pointerId;
    bar.setPointerCapture(pointer);
    take(event);
    bar.focus({ preventScroll: true });
    event.preventDefault();
  });
  bar.addEventListener("pointermove", (event) => event.pointerId === pointer && take(event));
  for (const name of ["pointerup", "pointercancel", "lostpointercapture"]) {
    bar.addEventListener(name, (event) => {
      if (event.pointerId !== pointer) return;
      pointer = null;
      if (!stay.checked) wanted = 0;
    });
  }
  bar.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key in KEYS) wanted = clamp(Math.round((wanted + KEYS[event.key] * (event.shiftKey ? 0.1 : 1)) * 1000) / 1000);
    else if (event.key === "Home" || event.key === "0") wanted = 0;
    else if (event.key === "End") wanted = 1;
    else if (event.key.toLowerCase() === "f") floored = true;
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
  bar.addEventListener("keyup", (event) => event.key.toLowerCase() === "f" && (floored = false));
  bar.addEventListener("blur", () => (floored = false));

  return {
    node,
    bar,
    wanted: () => (floored ? 1 : wanted),
    letGo: () => ([wanted, floored] = [0, false]),
    set: (value) => (wanted = clamp(value)),
    show(pedal) {
      fill.style.inlineSize = `${(100 * pedal).toFixed(1)}%`;
      const text = `${(100 * pedal).toFixed(1)} %`;
      if (text === shownText) return;
      shownText = text;
      words.textContent = text;
      bar.setAttribute("aria-valuenow", (100 * pedal).toFixed(1));
      bar.setAttribute("aria-valuetext", text);
    },
  };
}
