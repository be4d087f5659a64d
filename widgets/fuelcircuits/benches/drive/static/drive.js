// The carburettor driven: drawing and strip above, dials, pedal and what is settled before below.
// `ask` is told what to do and answers as the bench in Python does; nothing is computed here.

import { element, write } from "../../frame/static/controls.js";
import { calm, mountDrawing } from "../../frame/static/drawing.js";
import { mountGauges } from "../../frame/static/gauge.js";
import { inScale, wordsIn } from "../../frame/static/measure.js";
import { mountPlot } from "../../frame/static/plot.js";
import { choice, themeOf } from "../../frame/static/switches.js";
import { drivePace, feetIn, footSteps } from "./pace.js";
import { mountPedal } from "./pedal.js";
import { mountOutset } from "./outset.js";
import { heardOf, openSpeaker } from "./sound.js";
import { mountStripTable, stripOf } from "./strip.js";

const REDRAWN = 70, REDRAWN_CALM = 1000; // milliseconds between two drawings of the strip
const QUIET = 2500; // milliseconds between two sentences that are read out
const AHEAD_OF_IT = 100; // steps of a healthy car that are worked out at once
const SLOW = 0.25;
const RATES = [{ text: "Full speed", value: 1 }, { text: "Slow", value: SLOW }];

// `place` is { el, about, first, ask, said, system, heading, tools, told, open }: where it goes,
// what the bench says of itself and shows first, what a link says, the side of the units, the
// title's element, what else stands in its bar, who is told of settings, and how a part opens.
export function mountDrive({ el, about, first, ask, said, system: side, heading, tools, told, open }) {
  const mark = `fc${Math.random().toString(36).slice(2, 10)}`;
  const { step, every, rows: columns } = about;
  const block = step * every;
  const top = about.gauges[0].high;
  const strip = stripOf(columns, about.measures, Math.ceil(inScale(about.measures.speed.SI, top) / 1000) * 1000 / about.measures.speed.SI.factor);
  const { at } = strip;
  let system = side, frames = [], rows = [], kept = null, seenAt = 0, running = false, busy = false, rate = 1;
  let script = null, foot = 0, outing = about.outing, asking = 0, spoke = 0, waits = "", drawn = 0, ticket = 0, gone = false;
  let pending = Promise.resolve(); // what is being asked for
  const waiting = [];

  // ---- what stands on the page
  const button = (text, act, facts = {}) => element("button", { type: "button", onclick: act, ...facts }, text);
  const stage = element("div", { className: "fc-drawing" });
  const drawing = mountDrawing(stage, about.drawing, mark);
  const sheet = element("div", { className: "fc-chart" });
  const plot = mountPlot(sheet, mark);
  const dials = element("div", { className: "fc-gauges", role: "group", "aria-label": "Gauges" });
  const gauges = mountGauges(dials);
  const verdict = element("p", { className: "fc-verdict" });
  const facts = element("p", { className: "fc-small fc-facts" });
  const voice = element("p", { className: "fc-voice", role: "status" });
  const news = element("p", { className: "fc-small fc-told", role: "status" });
  const pedal = mountPedal(mark);
  const table = mountStripTable(about.measures, at);
  const strips = element("details", { ontoggle: () => strips.open && table.show(rows, timeNow(), system) }, element("summary", {}, "The strip as a table"), element("div", { className: "fc-scroll", tabIndex: 0, role: "region", "aria-label": "The strip as a table" }, table.node));

  const views = choice("View", mark, [{ text: "Whole", value: undefined }, ...drawing.views.map(({ name, box }) => ({ text: name, value: box }))], undefined, drawing.zoom);
  const units = choice("Units", mark, [{ text: "SI", value: "SI" }, { text: "US shop", value: "US" }], system, (now) => api.units(now));
  const speaker = openSpeaker(about.cylinders, () => (sounds() ? heardOf(frames[seenAt].now, at, top, about.torque) : null));
  const sound = button("Sound: off", () => {
    const on = sound.getAttribute("aria-pressed") !== "true";
    sound.setAttribute("aria-pressed", on);
    sound.textContent = on ? "Sound: on" : "Sound: off";
    if (on) speaker.on();
    else speaker.off();
  }, { "aria-pressed": "false", title: "The engine, worked out from speed, load and misfire" });

  const go = button("Drive", () => (running ? rest() : run()), { className: "fc-main" });
  const once = button("One step", stepOnce, { title: `Go on by ${block} s` });
  const pace = choice("Pace", mark, RATES, 1, (now) => (rate = now));
  const back = element("input", { type: "range", min: 0, max: 0, value: 0, step: 1, "aria-label": "Look back", oninput: () => look(Number(back.value)) });
  const again = button("Play again", replay, { title: "Play what has been driven once more" });
  const clock = element("output", { className: "fc-clock" });
  const transport = element("div", { className: "fc-player fc-transport" }, go, once, pace.group, again, back, clock);

  const gears = choice("Gear", mark, about.gears.map((name) => ({ text: name[0].toUpperCase() + name.slice(1), value: name })), "neutral", () => {});
  // What a trace or a beginning does is seen on the levers.
  function levers([, gear, rise, on, turning]) {
    gears.show(gear);
    slope.value = Math.round(100 * rise);
    slopeSaid();
    key.checked = on;
    starter.setAttribute("aria-pressed", turning);
  }

  const chosenGear = () => about.gears[[...gears.group.querySelectorAll("input")].findIndex((each) => each.checked)];
  const key = element("input", { type: "checkbox", checked: true });
  let cranking = false;
  const starter = button("Starter", () => {}, { title: "Hold it: by mouse, finger, Enter or Space" });
  const crank = (on) => {
    cranking = on;
    starter.setAttribute("aria-pressed", on);
    if (on) key.checked = true;
    if (on && !running) run();
  };
  starter.addEventListener("pointerdown", () => crank(true));
  for (const name of ["pointerup", "pointerleave", "blur"]) starter.addEventListener(name, () => cranking && crank(false));
  starter.addEventListener("keydown", (event) => [" ", "Enter"].includes(event.key) && !event.repeat && crank(true));
  starter.addEventListener("keyup", (event) => [" ", "Enter"].includes(event.key) && crank(false));
  const slope = element("input", { type: "range", min: -10, max: 15, value: 0, step: 1, id: `${mark}-slope`, oninput: () => slopeSaid() });
  const slopeText = element("output", {});
  const slopeSaid = () => {
    slopeText.textContent = `${slope.value} in 100`;
    slope.setAttribute("aria-valuetext", slopeText.textContent);
  };
  slopeSaid();
  const cockpit = element(
    "div",
    { className: "fc-cockpit", role: "group", "aria-label": "Driving" },
    pedal.node,
    element("div", { className: "fc-row" }, gears.group, element("label", {}, key, " key on"), starter, element("label", { htmlFor: slope.id }, "Hill "), slope, slopeText),
    transport,
  );

  const outset = mountOutset(mark, about, () => system, { begin, ride, alone, keep, drop, save, load, reveal, journey: (name) => ask({ do: "journey", name }) });
  const parts = element(
    "div",
    { className: "fc-parts", role: "group", "aria-label": "Open a part's own bench at this moment" },
    element("span", {}, "Open at this moment:"),
    ...Object.entries(about.parts).map(([stem, name]) => button(name, () => openPart(stem))),
  );
  for (const part of drawing.svg.querySelectorAll("[data-part]")) {
    if (!(part.dataset.part in about.parts)) continue;
    part.classList.add("fc-door");
    part.addEventListener("click", () => openPart(part.dataset.part));
  }

  const root = element(
    "section",
    { className: "fc-bench fc-drive", "aria-label": about.title },
    element("header", {}, element(heading ?? "h3", { className: "fc-title" }, about.title), ...tools, views.group, units.group, sound),
    news,
    verdict,
    element("div", { className: "fc-sight" }, stage, sheet),
    element("div", { className: "fc-front" }, cockpit, dials),
    facts,
    outset.node,
    parts,
    strips,
    voice,
  );

  // ---- showing
  const timeNow = () => frames[seenAt]?.now[at.time] ?? 0;
  const sounds = () => running || (script?.replay ?? false);

  function factsOf(frame) {
    const { now, exhaust } = frame;
    const scale = (name, value) => wordsIn(about.measures[name][system], value);
    const firing = now[at.speed] > 2 ? `${Math.round(100 * now[at.fires])} % of the cycles fire` : "nothing fires";
    return `Exhaust: ${exhaust}; ${firing}; coolant ${scale("outside", now[at.coolant])}.`;
  }

  function show(index, jump, mine) {
    seenAt = index;
    const frame = frames[index];
    drawing.aim(frame.numbers, jump || running);
    about.gauges.forEach((gauge, i) => (gauge.value = frame.needles[i]));
    gauges.mark(about.gauges, system, null);
    write(verdict, frame.said);
    verdict.classList.toggle("fc-alarm", frame.alarm);
    drawing.svg.setAttribute("aria-label", `Both barrels in section, with the bowl between them. ${frame.said}`);
    write(facts, factsOf(frame));
    pedal.show(frame.now[at.pedal]);
    if (!mine && (script || !running)) levers(frame.foot);
    write(clock, `${frame.now[at.time].toFixed(1)} s`);
    back.max = frames.length - 1;
    back.value = index;
    drawStrip(!running);
    speak(frame);
  }

  function drawStrip(now) {
    const time = performance.now();
    if (!now && time - drawn < (calm.matches ? REDRAWN_CALM : REDRAWN)) return;
    drawn = time;
    const { own, before } = strip.chart(rows, timeNow(), kept);
    plot.show(own, before, system);
    plot.mark(null, null);
    plot.svg.setAttribute("aria-label", "Fuel by circuit, lambda, engine speed and pedal over the last 20 seconds; the table below has the numbers.");
    if (strips.open && now) table.show(rows, timeNow(), system);
  }

  // A sentence is read out once it has stood for a moment, and never two within seconds.
  function speak({ said: sentence }) {
    if (sentence === waits) return;
    waits = sentence;
    setTimeout(() => {
      const time = performance.now();
      if (sentence !== waits || time - spoke < QUIET) return;
      spoke = time;
      voice.textContent = sentence;
    }, 600);
  }

  const tell = (words) => write(news, words);

  // ---- time
  const beat = drivePace(step, every);
  root.driveCounts = beat.counts;

  async function run() {
    if (!(await opened())) return;
    if (seenAt < frames.length - 1 && !script?.replay) show(frames.length - 1, true);
    running = true;
    dress();
    ticket ||= requestAnimationFrame(turn);
  }

  function halt() {
    running = false;
    if (script?.replay) script = null;
    beat.halt();
    cancelAnimationFrame(ticket);
    ticket = 0;
    dress();
    drawStrip(true);
  }

  // Stand still where Python stands: what has been asked for is waited for, and shown.
  async function rest() {
    halt();
    await pending;
    if (!waiting.length) return;
    frames.push(...waiting.splice(0));
    show(frames.length - 1, true);
  }

  function turn(now) {
    ticket = running ? requestAnimationFrame(turn) : 0;
    if (!running || document.hidden) return beat.halt();
    beat.to(now / 1000, rate);
    if (script?.replay) return playOn();
    while (waiting.length && beat.isDue(waiting[0].now[at.time] - script0)) {
      const frame = waiting.shift();
      frames.push(frame);
      if (!waiting.length || !beat.isDue(waiting[0].now[at.time] - script0)) show(frames.length - 1);
    }
    const owed = beat.owed();
    if (owed && !busy) pending = advance(owed);
  }

  let script0 = 0; // time at which the clock began

  function nextFeet(count) {
    if (script) return script.feet.take(count);
    const rest = [chosenGear(), Number(slope.value) / 100, key.checked, cranking && key.checked];
    const made = footSteps(count, foot, pedal.wanted(), rest);
    foot = made.pedal;
    return made.rows;
  }

  async function advance(blocks) {
    const asked = nextFeet(blocks * every);
    if (!asked.length) return ended();
    busy = true;
    beat.took(blocks);
    const number = asking;
    const answer = await ask({ do: "go", feet: asked }).catch((error) => ({ refused: [error.message] }));
    busy = false;
    if (gone || number !== asking) return;
    if (answer.refused) {
      tell(answer.refused.join(" "));
      return halt();
    }
    rows.push(...answer.rows);
    if (answer.rows.length || answer.stopped) {
      beat.came(answer.now[at.time] - script0, blocks);
      waiting.push(answer);
    }
    if (answer.stopped) {
      tell(`The model finds no balance here, so the drive ends (${answer.stopped}).`);
      settleDown();
    }
  }

  function settleDown() {
    frames.push(...waiting.splice(0));
    show(frames.length - 1);
    halt();
  }

  // The end of a set or loaded drive: from here on the foot is the driver's.
  function ended() {
    if (waiting.length) return;
    const { name } = script;
    script = null;
    pedal.letGo();
    foot = frames.at(-1).foot[0];
    halt();
    tell(`${name} is over. Look back along it, keep it to compare with, or drive on yourself.`);
  }

  async function stepOnce() {
    if (running) return rest();
    await pending;
    if (!(await opened())) return;
    frames.push(...waiting.splice(0));
    if (seenAt < frames.length - 1) return show(seenAt + 1, true);
    beat.reset();
    await (pending = advance(1));
    script0 = frames.at(-1).now[at.time];
    frames.push(...waiting.splice(0));
    beat.reset();
    show(frames.length - 1, true);
    if (strips.open) table.show(rows, timeNow(), system);
  }

  async function look(index) {
    if (running) await rest();
    show(Math.min(index, frames.length - 1), true);
    if (strips.open) table.show(rows, timeNow(), system);
  }

  async function replay() {
    if (running) await rest();
    if (frames.length < 2) return;
    script = { replay: true, from: frames[0].now[at.time] };
    beat.reset();
    show(0, true);
    run();
  }

  function playOn() {
    let next = seenAt;
    while (next < frames.length - 1 && beat.isDue(frames[next + 1].now[at.time] - script.from)) next += 1;
    if (next !== seenAt) show(next);
    if (next === frames.length - 1) {
      script = null;
      halt();
      startClock();
    }
  }

  function startClock() {
    beat.reset();
    script0 = frames.at(-1).now[at.time];
  }

  // ---- drives
  let ready = false; // what is shown first has been worked out before, and has to be begun

  async function opened() {
    return ready || begin(outing, true);
  }

  // With `mine` the levers stay as they have been put meanwhile.
  async function begin(settled, mine) {
    halt();
    asking += 1;
    const number = asking;
    tell("");
    const answer = await ask({ do: "begin", outing: settled }).catch((error) => ({ refused: [error.message] }));
    if (gone || number !== asking) return false;
    if (answer.refused) {
      tell(answer.refused.join(" "));
      return false;
    }
    outing = settled;
    script = null;
    ready = true;
    start(answer, mine);
    told(settled);
    return true;
  }

  function start(answer, mine) {
    waiting.length = 0;
    frames = [answer];
    rows = [answer.now];
    foot = answer.now[at.pedal];
    if (!mine) pedal.set(foot);
    startClock();
    outset.settled(outing);
    show(0, true, mine);
  }

  // Drive a set journey, or a loaded drive, beside a healthy car where something is wrong.
  async function ride({ name, settled, feet, beside }) {
    if (beside) await healthy(settled, feet);
    const done = await begin(settled);
    if (!done) return;
    script = { name, feet: feetIn(feet) };
    run();
  }

  // The same beginning with the driver's own foot, the set drive of a healthy car behind it.
  async function alone({ name, settled, feet, beside }) {
    if (beside) await healthy(settled, feet);
    if (await begin(settled)) tell(`${name}: it begins as you press Drive. Gear and pedal are yours.`);
  }

  async function healthy(settled, feet) {
    const steps = feetIn(feet);
    const whole = feet.reduce((sum, [count]) => sum + count, 0);
    const opened = await ask({ do: "begin", outing: { ...settled, fault: "" }, car: "healthy" });
    if (opened.refused) return;
    const found = [opened.now];
    for (let done = 0; !steps.done && !gone; done += AHEAD_OF_IT) {
      tell(`The healthy car drives it first, to compare with: ${Math.round((100 * done) / whole)} %`);
      const answer = await ask({ do: "go", feet: steps.take(AHEAD_OF_IT), car: "healthy", quiet: true });
      found.push(...(answer.rows ?? []));
      if (answer.refused || answer.stopped) break;
    }
    kept = found;
    outset.compared(true);
  }

  function keep() {
    kept = [...rows];
    outset.compared(true);
    drawStrip(true);
  }

  function drop() {
    kept = null;
    outset.compared(false);
    drawStrip(true);
  }

  async function save() {
    await rest();
    return (await opened()) && ask({ do: "save" });
  }

  async function reveal() {
    return (await opened()) && ask({ do: "tell" });
  }

  function load(text) {
    return ask({ do: "load", text });
  }

  async function openPart(stem) {
    if (running) await rest();
    if (!(await opened())) return;
    const answer = await ask({ do: "open", stem, row: frames[seenAt].now });
    if (!answer.refused) open(answer, tell);
  }

  // ---- dress and go
  function dress() {
    go.textContent = running ? "Pause" : "Drive";
    go.setAttribute("aria-pressed", running);
    root.classList.toggle("fc-running", running);
  }

  const api = {
    node: root,
    begin,
    ride,
    tell,
    outset,
    units(now) {
      system = now;
      units.show(now);
      gauges.show(about.gauges, now);
      outset.units();
      told(outing, now);
      if (frames.length) show(seenAt, true);
    },
    stop() {
      gone = true;
      halt();
      drawing.stop();
      speaker.stop();
      themes.disconnect();
      document.removeEventListener("visibilitychange", hidden);
    },
  };
  const hidden = () => document.hidden && running && halt();
  document.addEventListener("visibilitychange", hidden);
  const dressTheme = () => (root.dataset.theme = themeOf());
  const themes = new MutationObserver(dressTheme);
  themes.observe(document.body, { attributeFilter: ["data-jp-theme-light", "data-theme"] });
  dressTheme();
  gauges.show(about.gauges, system);
  el.append(root);
  outing = { ...about.outing, ...said };
  start(first);
  dress();
  return api;
}
