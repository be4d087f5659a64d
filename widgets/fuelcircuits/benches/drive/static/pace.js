// The time of a drive against the clock on the wall. Steps are asked for a little before they are
// due, the earlier the longer answers take; where Python is late, more are asked for at once, and
// pictures are left out rather than time. Only where it is hopelessly late does the drive's time
// stand still meanwhile.

const AHEAD = 0.08, FURTHEST = 0.3; // seconds of the drive that are asked for before they are due
const BEHIND = 0.6; // seconds that are made good at once; beyond that time is given up
const MARGIN = 1.5; // by how much steps are asked for earlier than answers take
const NEWER = 0.2; // weight of the newest answer in what answers take

// `step` [s] and `every` (steps to a picture) are those of the bench.
export function drivePace(step, every) {
  const block = step * every;
  const counts = { pictures: 0, late: 0, dropped: 0, given: 0 };
  let due = 0, asked = 0, takes = 0, last;
  const ahead = () => Math.min(Math.max(MARGIN * takes, AHEAD), FURTHEST);

  return {
    counts,
    // Let the clock go on to `now` [s] at a rate; the first call after a halt only sets it.
    to(now, rate) {
      if (last !== undefined) due += (now - last) * rate;
      last = now;
      const behind = due - asked - BEHIND;
      if (behind <= 0) return;
      due -= behind;
      counts.given += behind;
    },
    halt: () => (last = undefined),
    // Blocks to be asked for now, nought if none is near.
    owed: () => Math.max(0, Math.floor((due + ahead() - asked) / block + 1e-9)),
    took: (blocks) => (asked += blocks * block),
    // An answer took so many seconds of the drive.
    answered: (seconds) => (takes += NEWER * (seconds - takes)),
    // Whether a picture that stands at so many seconds is to be seen by now.
    isDue: (time) => time <= due + 1e-9,
    // A picture that came when it had been due already for longer than one block is late.
    came(time) {
      counts.pictures += 1;
      if (due - time > block) counts.late += 1;
    },
    // A picture that was due together with a newer one was not shown.
    skipped: () => (counts.dropped += 1),
    // Begin again at nought.
    reset() {
      due = asked = 0;
      last = undefined;
    },
  };
}

// The feet of a trace, taken block by block: rows of a count and a foot.
export function feetIn(rows) {
  let at = 0, used = 0;
  return {
    get done() {
      return at >= rows.length;
    },
    // The next `count` steps as rows; fewer where the trace ends.
    take(count) {
      const taken = [];
      let left = count;
      while (left > 0 && at < rows.length) {
        const [whole, ...foot] = rows[at];
        const part = Math.min(left, whole - used);
        taken.push([part, ...foot]);
        used += part;
        left -= part;
        if (used === whole) [at, used] = [at + 1, 0];
      }
      return taken;
    },
  };
}

// Share of a pedal's way in one step, down and up: accelerator and brake from end to end in a fifth
// of a second; the clutch comes up as slowly as it does under a careful foot.
const DOWN = [0.1, 0.2, 0.1], UP = [0.1, 0.015, 0.1];
const fine = (share) => Math.round(share * 1000) / 1000;

// Rows for `count` steps in which the feet go from one place to another as fast as feet do; a
// place is [pedal, clutch, brake].
export function footSteps(count, from, to, rest) {
  const rows = [];
  let place = from;
  for (let step = 0; step < count; step += 1) {
    place = place.map((share, i) => share + Math.min(Math.max(to[i] - share, -UP[i]), DOWN[i]));
    const [pedal, ...others] = place.map(fine);
    const row = [pedal, ...rest, ...others];
    const last = rows.at(-1);
    if (last && row.every((entry, i) => entry === last[i + 1])) last[0] += 1;
    else rows.push([1, ...row]);
  }
  return { rows, place };
}
