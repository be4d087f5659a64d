// The carburettor driven: drawing and strip above, dials, pedal and what is settled before below.
// `ask` is told what to do and answers as the bench in Python does; nothing is computed here.

import { element } from "../../frame/static/controls.js";
import { choice, followTheme } from "../../frame/static/switches.js";
import { mountCockpit, pushButton } from "./cockpit.js";
import { askAtRest, beginDrive, compareWith, openPart, rideAlone, rideScript, startDrive } from "./drives.js";
import { mountOutset } from "./outset.js";
import { drivePace } from "./pace.js";
import { mountScene } from "./scene.js";
import { dressDrive, sayNews, showMoment } from "./seen.js";
import { heardOf, openSpeaker } from "./sound.js";
import { haltDrive, lookBack, replayDrive, restDrive, runDrive, stepDrive } from "./travel.js";

// A drive that has not begun. `ready` tells that Python has begun it too: what is shown first has
// been worked out before. `began` is the time at which the clock did, `pending` what is being
// asked for, `asking` the number of the drive that an answer is for.
function standingDrive({ about, ask, system, told, open }) {
  const drive = { about, ask, system, told, openBench: open, outing: about.outing, beat: drivePace(about.step, about.every) };
  Object.assign(drive, { frames: [], rows: [], waiting: [], kept: null, script: null, seenAt: 0, place: [0, 0, 0], rate: 1, began: 0 });
  Object.assign(drive, { running: false, busy: false, ready: false, gone: false, asking: 0, ticket: 0, pending: Promise.resolve() });
  drive.asked = (question) => ask(question).catch((error) => ({ refused: [error.message] }));
  drive.opened = async () => drive.ready || beginDrive(drive, drive.outing, true);
  return drive;
}

function cockpitOf(drive, mark) {
  return mountCockpit(mark, drive.about, drive.scene.dials, {
    go: () => (drive.running ? restDrive(drive) : runDrive(drive)),
    step: () => stepDrive(drive),
    rate: (now) => (drive.rate = now),
    look: (index) => lookBack(drive, index),
    replay: () => replayDrive(drive),
    starter: () => drive.running || runDrive(drive),
  });
}

function outsetOf(drive, mark) {
  return mountOutset(mark, drive.about, () => drive.system, {
    begin: (settled) => beginDrive(drive, settled),
    ride: (journey) => rideScript(drive, journey),
    alone: (journey) => rideAlone(drive, journey),
    keep: () => compareWith(drive, [...drive.rows]),
    drop: () => compareWith(drive, null),
    save: () => askAtRest(drive, { do: "save" }),
    load: (text) => drive.ask({ do: "load", text }),
    reveal: async () => (await drive.opened()) && drive.ask({ do: "tell" }),
    judge: (task) => askAtRest(drive, { do: "judge", task }),
    journey: (name) => drive.ask({ do: "journey", name }),
  });
}

function speakerOf(drive) {
  const { about, scene } = drive;
  const sounds = () => drive.running || (drive.script?.replay ?? false);
  return openSpeaker(about.cylinders, () => (sounds() ? heardOf(drive.frames[drive.seenAt].now, scene.at, about.gauges[0].high, about.torque) : null));
}

function soundButton(speaker) {
  const button = pushButton("Sound: off", () => {
    const on = button.getAttribute("aria-pressed") !== "true";
    button.setAttribute("aria-pressed", on);
    button.textContent = on ? "Sound: on" : "Sound: off";
    if (on) speaker.on();
    else speaker.off();
  }, { "aria-pressed": "false", title: "The engine, worked out from speed, load and misfire" });
  return button;
}

function doorsOf(drive) {
  const doors = Object.entries(drive.about.parts).map(([stem, name]) => pushButton(name, () => openPart(drive, stem)));
  return element("div", { className: "fc-parts", role: "group", "aria-label": "Open a part's own bench at this moment" }, element("span", {}, "Open at this moment:"), ...doors);
}

// Everything on the page, from top to bottom; `bar` is what stands in the title's line.
function sheetOf({ about, news, scene, cockpit, outset }, heading, bar, doors) {
  return element(
    "section",
    { className: "fc-bench fc-drive", "aria-label": about.title },
    element("header", {}, element(heading ?? "h3", { className: "fc-title" }, about.title), ...bar),
    news,
    scene.verdict,
    scene.sight,
    cockpit.node,
    scene.facts,
    outset.node,
    doors,
    scene.details,
    scene.voice,
  );
}

function turnUnits(drive, units, now) {
  drive.system = now;
  units.show(now);
  drive.outset.units();
  drive.told(drive.outing, now);
  if (drive.frames.length) showMoment(drive, drive.seenAt, true);
}

// Halt a drive whose page is hidden; return what ends that.
function haltWhenHidden(drive) {
  const hidden = () => document.hidden && drive.running && haltDrive(drive);
  document.addEventListener("visibilitychange", hidden);
  return () => document.removeEventListener("visibilitychange", hidden);
}

// `place` is { el, about, first, ask, said, system, heading, tools, told, open }: where it goes,
// what the bench says of itself and shows first, what a link says, the side of the units, the
// title's element, what else stands in its bar, who is told of settings, and how a part opens.
export function mountDrive(place) {
  const mark = `fc${Math.random().toString(36).slice(2, 10)}`;
  const { about } = place;
  const drive = standingDrive(place);
  drive.news = element("p", { className: "fc-small fc-told", role: "status" });
  drive.scene = mountScene(mark, about, (stem) => openPart(drive, stem));
  drive.cockpit = cockpitOf(drive, mark);
  drive.outset = outsetOf(drive, mark);
  const speaker = speakerOf(drive);
  const turned = (now) => turnUnits(drive, units, now);
  const units = choice("Units", mark, [{ text: "SI", value: "SI" }, { text: "US shop", value: "US" }], place.system, turned);
  const bar = [...place.tools, units.group, soundButton(speaker), drive.scene.views];
  drive.root = sheetOf(drive, place.heading, bar, doorsOf(drive));
  drive.root.driveCounts = drive.beat.counts;
  const ends = [drive.scene.stop, speaker.stop, followTheme(drive.root), haltWhenHidden(drive)];
  place.el.append(drive.root);
  drive.outing = { ...about.outing, ...place.said };
  startDrive(drive, place.first);
  dressDrive(drive);
  return faceOf(drive, turned, ends);
}

// What the place that a drive stands in may do with it.
function faceOf(drive, units, ends) {
  return {
    node: drive.root,
    begin: (settled, mine) => beginDrive(drive, settled, mine),
    ride: (journey) => rideScript(drive, journey),
    tell: (words) => sayNews(drive, words),
    outset: drive.outset,
    units,
    stop() {
      drive.gone = true;
      haltDrive(drive);
      for (const end of ends) end();
    },
  };
}
