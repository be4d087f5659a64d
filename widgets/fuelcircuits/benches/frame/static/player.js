// Play, pause and step through a run, or draw its time along a slider.
// With reduced motion nothing plays; the steps remain.

import { element, write } from "./controls.js";
import { calm } from "./drawing.js";
import { ticks, wordsIn } from "./measure.js";

const SPEEDS = [["0.25", "¼ ×"], ["0.5", "½ ×"], ["1", "1 ×"], ["2", "2 ×"], ["4", "4 ×"]];

export function mountPlayer(facts, mark, moved, rested) {
  const id = `${mark}-set-time`;
  const button = (words, sign, act) => element("button", { type: "button", title: words, "aria-label": words, onclick: act }, sign);
  const back = button("One step back", "◂|", () => step(-1));
  const play = button("Play", "▶", () => (ticket ? pause() : start()));
  const on = button("One step on", "|▸", () => step(1));
  const slider = element("input", { type: "range", id, min: 0, oninput: () => halt(slider.valueAsNumber) });
  const clock = element("output", { htmlFor: id, className: "fc-clock" });
  const speed = element("select", { "aria-label": "Speed" }, ...SPEEDS.map(([value, text]) => element("option", { value, selected: value === "1" }, text)));
  const words = element("p", { className: "fc-moment" });
  const node = element("div", { className: "fc-player", role: "group", "aria-label": "Run" }, back, play, on, element("label", { htmlFor: id }, "Time"), slider, clock, speed, words);
  let end = 1, stride = 0.1, time = 0, ticket = 0, last = 0, moments = [];

  play.hidden = speed.hidden = calm.matches;
  calm.addEventListener("change", () => {
    play.hidden = speed.hidden = calm.matches;
    if (calm.matches) pause();
  });

  function put(next) {
    time = Math.min(Math.max(next, 0), end);
    slider.value = time;
    write(clock, `${wordsIn(facts.clock.SI, time)} of ${wordsIn(facts.clock.SI, end)}`);
    slider.setAttribute("aria-valuetext", wordsIn(facts.clock.SI, time));
    write(words, moments.findLast((moment) => moment.time <= time + 1e-9)?.words ?? "");
    back.disabled = time <= 0;
    on.disabled = time >= end;
    moved(time);
  }

  function tick(now) {
    put(time + Math.min((now - last) / 1000, 0.1) * facts.pace * Number(speed.value));
    last = now;
    if (time >= end) pause();
    else ticket = requestAnimationFrame(tick);
  }

  function start() {
    if (time >= end) put(0);
    last = performance.now();
    ticket = requestAnimationFrame(tick);
    dress("Pause", "❚❚");
  }

  function pause() {
    cancelAnimationFrame(ticket);
    ticket = 0;
    dress("Play", "▶");
    rested(time);
  }

  function dress(name, sign) {
    play.title = name;
    play.setAttribute("aria-label", name);
    play.textContent = sign;
  }

  function halt(next) {
    pause();
    put(next);
    rested(time);
  }

  const step = (way) => halt(Math.round(time / stride + way) * stride);

  return {
    node,
    playing: () => ticket !== 0,
    words: () => words.textContent,
    // A new run, or the same with other numbers: the time stays where it is.
    load({ times, moments: told }, at) {
      end = times[times.length - 1];
      moments = told;
      stride = ticks(0, end, 50).step;
      Object.assign(slider, { max: end, step: stride / 5 });
      put(at ?? time);
    },
    stop: () => cancelAnimationFrame(ticket),
  };
}
