// A drive in time: it runs, halts, goes on by a step, is looked back along and played again.

import { footSteps } from "./pace.js";
import { dressDrive, redrawn, sayNews, showLast, showMoment } from "./seen.js";

// Stand where a picture does: with its pedal, clutch and brake, and its gear.
export function standAt(drive, { foot: [pedal, gear, , , , clutch, brake] }) {
  Object.assign(drive, { place: [pedal, clutch, brake], gear });
}

const timeOf = (drive, frame) => frame.now[drive.scene.at.time];

export async function runDrive(drive) {
  if (!(await drive.opened())) return;
  if (drive.seenAt < drive.frames.length - 1 && !drive.script?.replay) showLast(drive, true);
  drive.running = true;
  dressDrive(drive);
  drive.ticket ||= requestAnimationFrame((now) => turnDrive(drive, now));
}

export function haltDrive(drive) {
  drive.running = false;
  if (drive.script?.replay) drive.script = null;
  drive.beat.halt();
  cancelAnimationFrame(drive.ticket);
  drive.ticket = 0;
  dressDrive(drive);
  redrawn(drive);
}

// Stand still where Python stands: what has been asked for is waited for, and shown.
export async function restDrive(drive) {
  haltDrive(drive);
  await drive.pending;
  if (!drive.waiting.length) return;
  takeWaiting(drive);
  showLast(drive, true);
}

const takeWaiting = ({ frames, waiting }) => frames.push(...waiting.splice(0));

function turnDrive(drive, now) {
  drive.ticket = drive.running ? requestAnimationFrame((next) => turnDrive(drive, next)) : 0;
  if (!drive.running || document.hidden) return drive.beat.halt();
  drive.beat.to(now / 1000, drive.rate);
  if (drive.script?.replay) return playOn(drive);
  showDue(drive);
  const owed = drive.beat.owed();
  if (owed && !drive.busy) drive.pending = advanceDrive(drive, owed);
}

// Of the pictures that are due the last is shown; those before it are left out.
function showDue(drive) {
  const { waiting, frames } = drive;
  const due = () => waiting.length && drive.beat.isDue(timeOf(drive, waiting[0]) - drive.began);
  while (due()) {
    frames.push(waiting.shift());
    if (due()) drive.beat.skipped();
    else showLast(drive);
  }
}

function nextFeet(drive, count) {
  if (drive.script) return drive.script.feet.take(count);
  const { pedal, feet, levers } = drive.cockpit;
  const [clutch, brake] = feet.wanted();
  const [gear, ...others] = levers.now();
  if (!clutch || drive.place[1] > 0.999) drive.gear = gear; // the lever waits for the clutch
  const made = footSteps(count, drive.place, [pedal.wanted(), clutch, brake], [drive.gear, ...others]);
  drive.place = made.place;
  return made.rows;
}

async function advanceDrive(drive, blocks) {
  const feet = nextFeet(drive, blocks * drive.about.every);
  if (!feet.length) return endScript(drive);
  drive.busy = true;
  drive.beat.took(blocks);
  const number = drive.asking, since = performance.now();
  const answer = await drive.asked({ do: "go", feet });
  drive.busy = false;
  if (drive.gone || number !== drive.asking) return;
  drive.beat.answered((drive.rate * (performance.now() - since)) / 1000);
  if (!answer.refused) return takeAnswer(drive, answer);
  sayNews(drive, answer.refused.join(" "));
  haltDrive(drive);
}

function takeAnswer(drive, answer) {
  const pictures = [...answer.before, ...(answer.rows.length || answer.stopped ? [answer] : [])];
  for (const picture of pictures) drive.beat.came(timeOf(drive, picture) - drive.began);
  drive.rows.push(...answer.rows);
  drive.waiting.push(...pictures);
  if (answer.stopped) stopDrive(drive, answer.stopped);
}

function stopDrive(drive, reason) {
  sayNews(drive, `The model finds no balance here, so the drive ends (${reason}).`);
  takeWaiting(drive);
  showLast(drive);
  haltDrive(drive);
}

// The end of a set or loaded drive: from here on the foot is the driver's.
function endScript(drive) {
  if (drive.waiting.length) return;
  const { name } = drive.script;
  drive.script = null;
  drive.cockpit.pedal.letGo();
  drive.cockpit.feet.set([0, 0]);
  standAt(drive, drive.frames.at(-1));
  haltDrive(drive);
  sayNews(drive, `${name} is over. Look back along it, keep it to compare with, or drive on yourself.`);
}

export async function stepDrive(drive) {
  if (drive.running) return restDrive(drive);
  await drive.pending;
  if (!(await drive.opened())) return;
  takeWaiting(drive);
  if (drive.seenAt < drive.frames.length - 1) return showMoment(drive, drive.seenAt + 1, true);
  drive.beat.reset();
  await (drive.pending = advanceDrive(drive, 1));
  drive.began = timeOf(drive, drive.frames.at(-1));
  takeWaiting(drive);
  drive.beat.reset();
  showLast(drive, true);
}

export async function lookBack(drive, index) {
  if (drive.running) await restDrive(drive);
  showMoment(drive, Math.min(index, drive.frames.length - 1), true);
}

export async function replayDrive(drive) {
  if (drive.running) await restDrive(drive);
  if (drive.frames.length < 2) return;
  drive.script = { replay: true, from: timeOf(drive, drive.frames[0]) };
  drive.beat.reset();
  showMoment(drive, 0, true);
  runDrive(drive);
}

function playOn(drive) {
  const { frames, script, seenAt } = drive;
  let next = seenAt;
  while (next < frames.length - 1 && drive.beat.isDue(timeOf(drive, frames[next + 1]) - script.from)) next += 1;
  if (next !== seenAt) showMoment(drive, next);
  if (next < frames.length - 1) return;
  drive.script = null;
  haltDrive(drive);
  startClock(drive);
}

export function startClock(drive) {
  drive.beat.reset();
  drive.began = timeOf(drive, drive.frames.at(-1));
}
