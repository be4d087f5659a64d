// The carburettor driven: drawing and strip above, dials, pedal and what is settled before below.
// `ask` is told what to do and answers as the bench in Python does; nothing is computed here.

import { element, write } from "../../frame/static/controls.js";
import { choice, followTheme } from "../../frame/static/switches.js";
import { mountLevers } from "./levers.js";
import { mountOutset } from "./outset.js";
import { drivePace, feetIn, footSteps } from "./pace.js";
import { mountPedal } from "./pedal.js";
import { mountScene } from "./scene.js";
import { heardOf, openSpeaker } from "./sound.js";

const AHEAD_OF_IT = 100; // steps of a healthy car that are worked out at once
const SLOW = 0.25;
const RATES = [{ text: "Full speed", value: 1 }, { text: "Slow", value: SLOW }];

// `place` is { el, about, first, ask, said, system, heading, tools, told, open }: where it goes,
// what the bench says of itself and shows first, what a link says, the side of the units, the
// title's element, what else stands in its bar, who is told of settings, and how a part opens.
export function mountDrive({ el, about, first, ask, said, system: side, heading, tools, told, open }) {
  const mark = `fc${Math.random().toString(36).slice(2, 10)}`;
  const { step, every } = about;
  const block = step * every;
  const scene = mountScene(mark, about, openPart);
  const { at } = scene;
  let system = side, frames = [], rows = [], kept = null, seenAt = 0, running = false, busy = false, rate = 1;
  let script = null, foot = 0, outing = about.outing, asking = 0, ticket = 0, gone = false;
  let pending = Promise.resolve(); // what is being asked for
  const waiting = [];

  // ---- what stands on the page
  const button = (text, act, facts = {}) => element("button", { type: "button", onclick: act, ...facts }, text);
  const news = element("p", { className: "fc-small fc-told", role: "status" });
  const pedal = mountPedal(mark);
  const units = choice("Units", mark, [{ text: "SI", value: "SI" }, { text: "US shop", value: "US" }], system, (now) => api.units(now));
  const speaker = openSpeaker(about.cylinders, () => (sounds() ? heardOf(frames[seenAt].now, at, about.gauges[0].high, about.torque) : null));
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

  const levers = mountLevers(mark, about.gears, () => running || run());
  const cockpit = element(
    "div",
    { className: "fc-cockpit", role: "group", "aria-label": "Driving" },
    pedal.node,
    levers.node,
    transport,
  );

  const outset = mountOutset(mark, about, () => system, { begin, ride, alone, keep, drop, save, load, reveal, judge, journey: (name) => ask({ do: "journey", name }) });
  const parts = element(
    "div",
    { className: "fc-parts", role: "group", "aria-label": "Open a part's own bench at this moment" },
    element("span", {}, "Open at this moment:"),
    ...Object.entries(about.parts).map(([stem, name]) => button(name, () => openPart(stem))),
  );
  const root = element(
    "section",
    { className: "fc-bench fc-drive", "aria-label": about.title },
    element("header", {}, element(heading ?? "h3", { className: "fc-title" }, about.title), ...tools, scene.views, units.group, sound),
    news,
    scene.verdict,
    scene.sight,
    element("div", { className: "fc-front" }, cockpit, scene.dials),
    scene.facts,
    outset.node,
    parts,
    scene.details,
    scene.voice,
  );

  // ---- showing
  const sounds = () => running || (script?.replay ?? false);

  function show(index, jump, mine) {
    seenAt = index;
    const frame = frames[index];
    const drawn = scene.show(frame, { rows, kept, system, running, jump });
    write(clock, `${frame.now[at.time].toFixed(1)} s`);
    if (drawn || !script) pedal.show(frame.now[at.pedal]);
    if (!drawn) return;
    if (!mine && (script || !running)) levers.show(frame.foot);
    back.max = frames.length - 1;
    back.value = index;
  }

  // The same picture once more, as when something beside it has changed.
  function redraw() {
    if (frames.length) scene.show(frames[seenAt], { rows, kept, system, running: false, jump: true });
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
    redraw();
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
    const made = footSteps(count, foot, pedal.wanted(), levers.now());
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
  }

  async function look(index) {
    if (running) await rest();
    show(Math.min(index, frames.length - 1), true);
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
    redraw();
  }

  function drop() {
    kept = null;
    outset.compared(false);
    redraw();
  }

  async function save() {
    await rest();
    return (await opened()) && ask({ do: "save" });
  }

  async function reveal() {
    return (await opened()) && ask({ do: "tell" });
  }

  async function judge(task) {
    await rest();
    return (await opened()) && ask({ do: "judge", task });
  }

  function load(text) {
    return ask({ do: "load", text });
  }

  async function openPart(stem) {
    if (running) await rest();
    if (!(await opened())) return;
    const answer = await ask({ do: "open", stem, row: frames[seenAt].now, system });
    if (answer.refused) tell(answer.refused.join(" "));
    else open(answer, tell);
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
      outset.units();
      told(outing, now);
      if (frames.length) show(seenAt, true);
    },
    stop() {
      gone = true;
      halt();
      scene.stop();
      speaker.stop();
      undress();
      document.removeEventListener("visibilitychange", hidden);
    },
  };
  const hidden = () => document.hidden && running && halt();
  document.addEventListener("visibilitychange", hidden);
  const undress = followTheme(root);
  el.append(root);
  outing = { ...about.outing, ...said };
  start(first);
  dress();
  return api;
}
