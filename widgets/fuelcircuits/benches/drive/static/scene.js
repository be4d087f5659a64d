// What a drive shows: the drawing, the running strip as chart and table, dials, and words.

import { element, write } from "../../frame/static/controls.js";
import { calm, mountDrawing } from "../../frame/static/drawing.js";
import { mountGauges } from "../../frame/static/gauge.js";
import { inScale, wordsIn } from "../../frame/static/measure.js";
import { mountPlot } from "../../frame/static/plot.js";
import { choice } from "../../frame/static/switches.js";
import { mountStripTable, stripOf } from "./strip.js";

const REDRAWN = 70; // milliseconds between two drawings of the strip
const SETTLES = 600, QUIET = 2500; // milliseconds that a sentence stands before it is read out, and between two

// The end of the speed's axis: whole thousands of turns.
function endOf(scale, highest) {
  return (Math.ceil(inScale(scale, highest) / 1000) * 1000) / scale.factor;
}

// A sentence is read out once it has stood for a moment, and never two within seconds.
function mountVoice() {
  const node = element("p", { className: "fc-voice", role: "status" });
  let waits = "", spoke = 0, timer = 0;
  return {
    node,
    say(sentence) {
      if (sentence === waits) return;
      waits = sentence;
      clearTimeout(timer);
      const time = Math.max(SETTLES, spoke + QUIET - performance.now());
      timer = setTimeout(() => {
        spoke = performance.now();
        node.textContent = sentence;
      }, time);
    },
    stop: () => clearTimeout(timer),
  };
}

// `opens` is called with the name of a part that is clicked.
export function mountScene(mark, about, opens) {
  const { measures } = about;
  const strip = stripOf(about.rows, measures, endOf(measures.speed.SI, about.gauges[0].high));
  const { at } = strip;
  const stage = element("div", { className: "fc-drawing" });
  const drawing = mountDrawing(stage, about.drawing, mark);
  const sheet = element("div", { className: "fc-chart" });
  const plot = mountPlot(sheet, mark);
  const dials = element("div", { className: "fc-gauges", role: "group", "aria-label": "Gauges" });
  const gauges = mountGauges(dials);
  const verdict = element("p", { className: "fc-verdict" });
  const facts = element("p", { className: "fc-small fc-facts" });
  const voice = mountVoice();
  const table = mountStripTable(measures, at);
  const scroll = element("div", { className: "fc-scroll", tabIndex: 0, role: "region", "aria-label": "The strip as a table" }, table.node);
  const details = element("details", { ontoggle: () => listed() }, element("summary", {}, "The strip as a table"), scroll);
  const views = choice("View", mark, [{ text: "Whole", value: undefined }, ...drawing.views.map(({ name, box }) => ({ text: name, value: box }))], undefined, drawing.zoom);
  let drawn = 0, last = null, pictured = "";

  for (const part of drawing.svg.querySelectorAll("[data-part]")) {
    if (!(part.dataset.part in about.parts)) continue;
    part.classList.add("fc-door");
    part.addEventListener("click", () => opens(part.dataset.part));
  }

  function factsOf({ now, exhaust }, system) {
    const firing = now[at.speed] > 2 ? `${Math.round(100 * now[at.fires])} % of the cycles fire` : "nothing fires";
    const bed = now[at.bed] < 0 ? "" : `; canister ${wordsIn(measures.pedal[system], now[at.bed])} full, ${wordsIn(measures.fuel[system], now[at.purged])} drawn from it`;
    return `Exhaust: ${exhaust}; ${firing}; coolant ${wordsIn(measures.outside[system], now[at.coolant])}${bed}.`;
  }

  function listed() {
    if (details.open && last) table.show(last.rows, last.time, last.system);
  }

  function drawStrip(still) {
    const time = performance.now();
    if (!still && !calm.matches && time - drawn < REDRAWN) return;
    drawn = time;
    const { own, before } = strip.chart(last.rows, last.time, last.kept);
    plot.show(own, before, last.system);
    plot.mark(null, null);
    if (still) listed();
  }

  return {
    at,
    sight: element("div", { className: "fc-sight" }, stage, sheet),
    views: views.group,
    dials,
    verdict,
    facts,
    details,
    voice: voice.node,
    // Show a picture of the drive with the rows that led there; a running one is drawn less often.
    // With reduced motion it stands still while a drive runs, and is drawn anew when what is said
    // of it changes, and at rest. True where it was drawn.
    show(frame, { rows, kept, system, running, jump }) {
      if (calm.matches && running && frame.said === pictured) return false;
      pictured = running ? frame.said : "";
      last = { rows, kept, system, time: frame.now[at.time] };
      drawing.aim(frame.numbers, jump || running);
      gauges.show(about.gauges, system);
      about.gauges.forEach((gauge, i) => (gauge.value = frame.needles[i]));
      gauges.mark(about.gauges, system, null);
      write(verdict, frame.said);
      verdict.classList.toggle("fc-alarm", frame.alarm);
      drawing.svg.setAttribute("aria-label", `Both barrels in section, with the bowl between them. ${frame.said}`);
      plot.svg.setAttribute("aria-label", "Fuel by circuit, lambda, engine speed and pedal over the last 20 seconds; the table below has the numbers.");
      write(facts, factsOf(frame, system));
      drawStrip(!running);
      voice.say(frame.said);
      return true;
    },
    stop() {
      drawing.stop();
      voice.stop();
    },
  };
}
