// What is seen of a drive: one of its moments, how its buttons stand, and what it has to say.

import { write } from "../../frame/static/controls.js";

// Show the moment of an index; with `mine` the levers stay as they have been put meanwhile.
export function showMoment(drive, index, jump, mine) {
  const { scene, cockpit, script, running, rows, kept, system } = drive;
  drive.seenAt = index;
  const frame = drive.frames[index];
  const drawn = scene.show(frame, { rows, kept, system, running, jump });
  write(cockpit.clock, `${frame.now[scene.at.time].toFixed(1)} s`);
  if (drawn || !script) cockpit.show(frame.foot);
  if (!drawn) return;
  if (!mine && (script || !running)) cockpit.levers.show(frame.foot);
  if (script) cockpit.feet.set(frame.foot.slice(5));
  cockpit.back.max = drive.frames.length - 1;
  cockpit.back.value = index;
}

export const showLast = (drive, jump) => showMoment(drive, drive.frames.length - 1, jump);

// The same picture once more, as when something beside it has changed.
export function redrawn(drive) {
  const { frames, rows, kept, system, scene, seenAt } = drive;
  if (frames.length) scene.show(frames[seenAt], { rows, kept, system, running: false, jump: true });
}

export const sayNews = (drive, words) => write(drive.news, words);

export function dressDrive({ cockpit, root, running }) {
  cockpit.go.textContent = running ? "Pause" : "Drive";
  cockpit.go.setAttribute("aria-pressed", running);
  root.classList.toggle("fc-running", running);
}
