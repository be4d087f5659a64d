// The engine heard: every firing is a push on three resonances, that of a cycle that does not fire
// a weak one; the air hisses with its flow. All of it is worked out from speed, load and the share
// of cycles that fire. Nothing is recorded, and nothing sounds until it is asked for.

const CHUNK = 0.04, LEAD = 0.12; // seconds of a piece, and how far pieces are laid ahead
const PUSH = 0.0028; // seconds that a push lasts, out and back
const BODIES = [
  { pitch: 78, fades: 0.014, part: 1 },
  { pitch: 171, fades: 0.008, part: 0.55 },
  { pitch: 390, fades: 0.004, part: 0.3 },
];
const STRAIGHT = 20; // part of a push that goes out without ringing, so that no speed falls silent
const LOUD = 2; // what is louder than full is held back, as by a silencer
const TURN = 2 * Math.PI;

// Numbers evenly spread over [0, 1), the same for the same seed.
function spreadFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

// A voice at so many samples a second. `piece` fills samples for an engine that turns at `speed`
// [rad/s], with `load` and `fires` from 0 to 1 and `air` from 0 to 1 of its most.
export function engineVoice(rate, cylinders, seed = 1) {
  const random = spreadFrom(seed);
  const uneven = Array.from({ length: cylinders }, () => 0.9 + 0.2 * random());
  const bodies = BODIES.map(({ pitch, fades, part }) => {
    const shrink = Math.exp(-1 / (fades * rate));
    return { back: 2 * shrink * Math.cos((TURN * pitch) / rate), far: -shrink * shrink, part: part * Math.sin((TURN * pitch) / rate), one: 0, two: 0 };
  });
  let turned = 0, number = 0, left = 0, force = 0, hiss = 0, whine = 0;

  function fire({ load, fires }) {
    number = (number + 1) % cylinders;
    const burnt = random() < fires;
    force = uneven[number] * (burnt ? 0.22 + 0.9 * load : 0.05 + 0.05 * random());
    left = Math.round(PUSH * rate);
  }

  function sample(engine) {
    turned += ((engine.speed / TURN) * cylinders) / 2 / rate;
    if (turned >= 1) {
      turned %= 1;
      fire(engine);
    }
    const push = left > 0 ? (force / (PUSH * rate)) * Math.sin((TURN * left--) / (PUSH * rate)) : 0;
    let sum = STRAIGHT * push;
    for (const body of bodies) {
      const next = push + body.back * body.one + body.far * body.two;
      [body.two, body.one] = [body.one, next];
      sum += body.part * next;
    }
    hiss += 0.25 * (random() - 0.5 - hiss);
    whine = engine.starter ? (whine + 430 / rate) % 1 : 0;
    return Math.tanh(LOUD * sum) + 0.35 * engine.air * hiss + (engine.starter ? 0.03 * (whine - 0.5) : 0);
  }

  return {
    piece(engine, samples) {
      for (let i = 0; i < samples.length; i += 1) samples[i] = Math.max(-1, Math.min(1, sample(engine)));
      return samples;
    },
  };
}

// What a voice takes of a row of the drive; `top` is the engine's highest speed, `full` its torque.
export function heardOf(row, at, top, full) {
  const speed = row[at.speed];
  return {
    speed,
    load: Math.min(Math.max(row[at.torque] / full + 0.08, 0), 1),
    fires: row[at.fires],
    air: Math.min(row[at.air] / (top * 1.2e-4), 1),
    starter: speed > 2 && speed < 26.2,
  };
}

// Plays a voice for what `engine` tells, piece by piece; nothing while it tells nothing.
export function openSpeaker(cylinders, engine) {
  let context, voice, next = 0, timer = 0;

  function lay() {
    const now = engine();
    while (now && next < context.currentTime + LEAD) {
      const buffer = context.createBuffer(1, Math.round(CHUNK * context.sampleRate), context.sampleRate);
      voice.piece(now, buffer.getChannelData(0));
      const source = new AudioBufferSourceNode(context, { buffer });
      source.connect(context.destination);
      next = Math.max(next, context.currentTime + 0.01);
      source.start(next);
      next += CHUNK;
    }
  }

  return {
    on() {
      context ??= new AudioContext();
      voice ??= engineVoice(context.sampleRate, cylinders);
      context.resume();
      timer ||= setInterval(lay, 30);
    },
    off() {
      clearInterval(timer);
      timer = 0;
      context?.suspend();
    },
    stop() {
      clearInterval(timer);
      context?.close();
    },
  };
}
