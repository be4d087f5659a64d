// Drives one after another: begun, driven by a script or by one's own foot, and compared.

import { feetIn } from "./pace.js";
import { redrawn, sayNews, showMoment } from "./seen.js";
import { haltDrive, restDrive, runDrive, standAt, startClock } from "./travel.js";

const AHEAD_OF_IT = 100; // steps of a healthy car that are worked out at once

// Begin a drive; with `mine` the levers stay as they have been put meanwhile. True if it did.
export async function beginDrive(drive, settled, mine) {
  haltDrive(drive);
  drive.asking += 1;
  const number = drive.asking;
  sayNews(drive, "");
  const answer = await drive.asked({ do: "begin", outing: settled });
  if (drive.gone || number !== drive.asking) return false;
  if (answer.refused) {
    sayNews(drive, answer.refused.join(" "));
    return false;
  }
  Object.assign(drive, { outing: settled, script: null, ready: true });
  startDrive(drive, answer, mine);
  drive.told(settled);
  return true;
}

export function startDrive(drive, answer, mine) {
  drive.waiting.length = 0;
  Object.assign(drive, { frames: [answer], rows: [answer.now] });
  standAt(drive, answer);
  if (!mine) drive.cockpit.pedal.set(drive.place[0]);
  startClock(drive);
  drive.outset.settled(drive.outing);
  showMoment(drive, 0, true, mine);
}

// Drive a set journey, or a loaded drive, beside a healthy car where something is wrong.
export async function rideScript(drive, { name, settled, feet, beside }) {
  if (beside) await driveHealthy(drive, settled, feet);
  if (!(await beginDrive(drive, settled))) return;
  drive.script = { name, feet: feetIn(feet) };
  runDrive(drive);
}

// The same beginning with the driver's own foot, the set drive of a healthy car behind it.
export async function rideAlone(drive, { name, settled, feet, beside }) {
  if (beside) await driveHealthy(drive, settled, feet);
  if (!(await beginDrive(drive, settled))) return;
  sayNews(drive, `${name}: it begins as you press Drive. Gear and pedal are yours.`);
}

async function driveHealthy(drive, settled, feet) {
  const steps = feetIn(feet);
  const whole = feet.reduce((sum, [count]) => sum + count, 0);
  const opened = await drive.ask({ do: "begin", outing: { ...settled, fault: "" }, car: "healthy" });
  if (opened.refused) return;
  const found = [opened.now];
  for (let done = 0; !steps.done && !drive.gone; done += AHEAD_OF_IT) {
    sayNews(drive, `The healthy car drives it first, to compare with: ${Math.round((100 * done) / whole)} %`);
    const answer = await drive.ask({ do: "go", feet: steps.take(AHEAD_OF_IT), car: "healthy", quiet: true });
    found.push(...(answer.rows ?? []));
    if (answer.refused || answer.stopped) break;
  }
  drive.kept = found;
  drive.outset.compared(true);
}

// Keep rows to compare with, or none.
export function compareWith(drive, rows) {
  drive.kept = rows;
  drive.outset.compared(rows !== null);
  redrawn(drive);
}

// Ask something of the drive once it stands still.
export async function askAtRest(drive, question) {
  await restDrive(drive);
  return (await drive.opened()) && drive.ask(question);
}

// Open a part's own bench at the moment that is seen.
export async function openPart(drive, stem) {
  if (drive.running) await restDrive(drive);
  if (!(await drive.opened())) return;
  const row = drive.frames[drive.seenAt].now;
  const answer = await drive.ask({ do: "open", stem, row, system: drive.system });
  const say = (words) => sayNews(drive, words);
  if (answer.refused) say(answer.refused.join(" "));
  else drive.openBench(answer, say);
}
