// The state of a page as the part of its address after #, which no browser sends to a server.
//   #rig=dunlin&demand=0.004&pin=1&pin.demand=0.002&2.rig=plover&2.demand=0.004
// A control that stands where it starts is left out; the second setting has "2." before its names.

const differing = (values, start) => Object.entries(values).filter(([name, value]) => value !== start[name]);

function partOf(seat, prefix) {
  const { rig, start, values, pinned } = seat;
  const pins = Object.keys(pinned).length ? [["pin", "1"], ...differing(pinned, start).map(([name, value]) => [`pin.${name}`, value])] : [];
  const parts = [...(rig ? [["rig", rig]] : []), ...differing(values, start), ...pins];
  return parts.map(([name, value]) => [prefix + name, String(value)]);
}

// Seats are { rig, start, values, pinned }.
export function linkOf(seats, together) {
  const parts = seats.flatMap((seat, i) => partOf(seat, i ? `${i + 1}.` : ""));
  if (seats.length > 1 && together) parts.push(["together", "1"]);
  return new URLSearchParams(parts).toString();
}

// What a link says, one { rig, values, pinned } a seat; values are still text.
export function seatsIn(link) {
  const all = [...new URLSearchParams(link)];
  const second = all.filter(([name]) => name.startsWith("2.")).map(([name, value]) => [name.slice(2), value]);
  const first = all.filter(([name]) => !name.startsWith("2.") && name !== "together");
  const seats = (second.length ? [first, second] : [first]).map((parts) => {
    const said = Object.fromEntries(parts.filter(([name]) => !name.startsWith("pin")));
    const pins = parts.filter(([name]) => name.startsWith("pin.")).map(([name, value]) => [name.slice(4), value]);
    const { rig, ...values } = said;
    return { rig, values, pinned: parts.some(([name]) => name === "pin") ? Object.fromEntries(pins) : undefined };
  });
  return { seats, together: all.some(([name]) => name === "together") };
}

// The value of a control that a text stands for, inside its bounds; nothing for no such value.
function valueOf(spec, text) {
  if (spec.kind === "switch") return text === "true";
  if (spec.kind === "choice") return spec.options.find(({ value }) => String(value) === text)?.value;
  const number = Number(text);
  return text.trim() !== "" && Number.isFinite(number) ? Math.min(Math.max(number, spec.low), spec.high) : undefined;
}

// Texts as values of the controls that there are; whatever else a link says is passed over.
export function settingOf(controls, texts) {
  const known = controls.filter(({ name }) => name in texts).map((spec) => [spec.name, valueOf(spec, texts[spec.name])]);
  return Object.fromEntries(known.filter(([, value]) => value !== undefined));
}
