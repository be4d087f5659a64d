// Where the driver sits: the buttons of the drive's time above, below them pedal and levers on
// one side and the dials on the other.

import { element } from "../../frame/static/controls.js";
import { choice } from "../../frame/static/switches.js";
import { mountFeet } from "./feet.js";
import { mountLevers } from "./levers.js";
import { mountPedal } from "./pedal.js";

const SLOW = 0.25;
const RATES = [{ text: "Full speed", value: 1 }, { text: "Slow", value: SLOW }];

export const pushButton = (text, act, facts = {}) => element("button", { type: "button", onclick: act, ...facts }, text);

// `acts` is { go, step, rate, look, replay, starter }.
export function mountCockpit(mark, about, dials, acts) {
  const pedal = mountPedal(mark);
  const feet = mountFeet();
  const levers = mountLevers(mark, about.gears, acts.starter, feet.nodes);
  const go = pushButton("Drive", acts.go, { className: "fc-main" });
  const once = pushButton("One step", acts.step, { title: `Go on by ${about.step * about.every} s` });
  const pace = choice("Pace", mark, RATES, 1, acts.rate);
  const back = element("input", { type: "range", min: 0, max: 0, value: 0, step: 1, "aria-label": "Look back", oninput: () => acts.look(Number(back.value)) });
  const again = pushButton("Play again", acts.replay, { title: "Play what has been driven once more" });
  const clock = element("output", { className: "fc-clock" });
  const past = element("div", { className: "fc-past" }, again, back, clock);
  const transport = element("div", { className: "fc-player fc-transport" }, go, once, pace.group, past);
  const hands = element("div", { className: "fc-hands" }, pedal.node, levers.node);
  const node = element("div", { className: "fc-cockpit", role: "group", "aria-label": "Driving" }, transport, hands, dials);
  listenTo(node, [feet.keys, levers.keys]);
  return {
    ...{ node, pedal, feet, levers, go, back, clock },
    // Show how far the pedals are down.
    show([pressed, , , , , clutch, brake]) {
      pedal.show(pressed);
      feet.show([clutch, brake]);
    },
  };
}

// Keys with a letter act wherever the hands are in the cockpit; they are up once these leave it.
function listenTo(node, kinds) {
  const heard = (event) => (event.ctrlKey || event.metaKey || event.altKey ? "" : event.key.toLowerCase());
  const lift = (letter) => kinds.forEach(({ up }) => up(letter));
  node.addEventListener("keydown", (event) => event.repeat || kinds.forEach(({ down }) => down(heard(event))));
  node.addEventListener("keyup", (event) => lift(event.key.toLowerCase()));
  node.addEventListener("focusout", (event) => node.contains(event.relatedTarget) || [..."scb"].forEach(lift));
}
