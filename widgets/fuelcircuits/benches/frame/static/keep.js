// What the device keeps between visits: side of the units, rig, a card of one's own. Where the
// browser keeps nothing, everything works for this visit alone. Nothing is sent anywhere.

const NAME = "fuelcircuits";
let held;

function stored() {
  try {
    return JSON.parse(localStorage.getItem(NAME)) ?? {};
  } catch {
    return {};
  }
}

export function kept(name) {
  held ??= stored();
  return held[name];
}

export function keep(name, value) {
  held = { ...(held ?? stored()), [name]: value };
  try {
    localStorage.setItem(NAME, JSON.stringify(held));
  } catch {
    // this visit alone
  }
}
