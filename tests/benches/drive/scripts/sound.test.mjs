// The voice of the engine: its note follows the speed, its loudness the load, and it is repeatable.

import assert from "node:assert/strict";
import { test } from "node:test";
import { engineVoice } from "../../../../widgets/fuelcircuits/benches/drive/static/sound.js";

const RATE = 8000, CYLINDERS = 8;
const idle = { speed: 73, load: 0.1, fires: 1, air: 0.02, starter: false };
const heard = (engine, seconds = 2) => engineVoice(RATE, CYLINDERS).piece(engine, new Float32Array(RATE * seconds));
const loud = (samples) => Math.sqrt(samples.reduce((sum, each) => sum + each * each, 0) / samples.length);

// Power of a pitch in the samples, by Goertzel's rule.
function power(samples, pitch) {
  const turn = (2 * Math.PI * pitch) / RATE;
  let real = 0, imaginary = 0;
  samples.forEach((each, i) => {
    real += each * Math.cos(turn * i);
    imaginary += each * Math.sin(turn * i);
  });
  return real * real + imaginary * imaginary;
}

// First principles: a four-stroke engine fires half its cylinders in a turn.
for (const speed of [73, 200, 380]) {
  test(`the note of ${speed} rad/s is its firing`, () => {
    const samples = heard({ ...idle, speed, load: 0.6 }, 4);
    const firing = ((speed / (2 * Math.PI)) * CYLINDERS) / 2;
    const off = [0.79, 0.87, 1.13, 1.21].map((part) => power(samples, part * firing));
    assert.ok(power(samples, firing) > 20 * Math.max(...off));
  });
}

test("load is louder, misfire is not, and an engine at rest is silent", () => {
  assert.ok(loud(heard({ ...idle, load: 1 })) > 2 * loud(heard(idle)));
  assert.ok(loud(heard({ ...idle, load: 1, fires: 0.2 })) < 0.8 * loud(heard({ ...idle, load: 1 })));
  assert.equal(loud(heard({ ...idle, speed: 0, air: 0 })), 0);
});

test("at full load no speed falls silent, and none booms", () => {
  const speeds = [70, 95, 125, 165, 210, 260, 315, 365, 420];
  const levels = speeds.map((speed) => loud(heard({ ...idle, speed, load: 1, air: 0.5 })));
  assert.ok(Math.max(...levels) < 3 * Math.min(...levels), levels.join(" "));
});

test("the same engine sounds the same, and never beyond full", () => {
  const wild = { ...idle, speed: 450, load: 1, air: 1 };
  assert.deepEqual(heard(wild), heard(wild));
  assert.ok(heard(wild).every((each) => Math.abs(each) <= 1));
});
