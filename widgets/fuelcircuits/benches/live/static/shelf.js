// A live bench on a page: one setting or two beside each other, with the bar above them.

import { element, put, write } from "../../frame/static/controls.js";
import { keep, kept } from "../../frame/static/keep.js";
import { linkOf, seatsIn } from "../../frame/static/link.js";
import { OWN, openSeat } from "./seat.js";

const CALM = 250; // milliseconds before a change goes into the link
const texts = (values) => Object.fromEntries(Object.entries(values).map(([name, value]) => [name, String(value)]));

// The rig that a visitor wants: that of the link, else the last one, else the first.
function rigOf({ rigs }, said) {
  const known = [...rigs, ...(rigs.length && kept("card") ? [OWN] : [])];
  return [said, kept("rig"), rigs[0]].find((name) => known.includes(name)) ?? "";
}

// `host` stands on the page; `data` is what was worked out when the page was built.
export function mountLive(host, data, desk) {
  const alone = "alone" in host.dataset;
  const link = seatsIn(alone ? location.hash.slice(1) : "");
  const news = element("p", { className: "fc-news", role: "status" });
  const two = element("button", { type: "button", onclick: () => (seats.length > 1 ? leave() : sit(copyOf(seats[0]))) }, "Two settings");
  const together = element("input", { type: "checkbox", checked: link.together, onchange: changed });
  const joint = element("label", { className: "fc-joint" }, together, " Move both together");
  const copy = element("button", { type: "button", onclick: share }, alone ? "Copy link" : "Open alone");
  const place = element("div", { className: "fc-seats" });
  const seats = [];
  let timer = 0;

  const models = () => seats.map((seat) => seat.model()).filter(Boolean);
  const shelf = {
    data,
    desk,
    system: () => kept("units") ?? Object.values(data.parts)[0].about.system,
    changed,
    units(side) {
      keep("units", side);
      for (const model of models()) if (model.get("system") !== side) put(model, "system", side);
    },
    moved(seat, name, value) {
      if (!together.checked) return;
      for (const model of models()) if (model !== seat.model() && model.get(name) !== undefined) put(model, name, value);
    },
    carded: () => seats.forEach((seat) => seat.options()),
  };

  function copyOf(seat) {
    const { rig, values, pinned } = seat.state();
    return { rig, values: texts(values), pinned: Object.keys(pinned).length ? texts(pinned) : undefined };
  }

  function sit(said) {
    const second = seats.length > 0;
    const names = second ? { title: `${data.title}, second setting`, heading: "h2", tools: [] } : { title: data.title, heading: host.dataset.heading, tools: [two, joint, copy] };
    const seat = openSeat(shelf, { ...names, said: { ...said, rig: rigOf(data, said.rig) } });
    seats.push(seat);
    place.append(seat.node);
    dress();
  }

  function leave() {
    const seat = seats.pop();
    seat.stop();
    seat.node.remove();
    dress();
    changed();
  }

  function dress() {
    two.setAttribute("aria-pressed", seats.length > 1);
    joint.hidden = seats.length < 2;
    place.classList.toggle("fc-two", seats.length > 1);
  }

  const address = () => linkOf(seats.map((seat) => seat.state()), together.checked);

  function changed() {
    keep("rig", seats[0].state().rig || kept("rig"));
    if (!alone) return;
    clearTimeout(timer);
    timer = setTimeout(() => history.replaceState(null, "", `#${address()}`), CALM);
  }

  async function share() {
    const whole = new URL(`${data.page}#${address()}`, location.href).href;
    if (!alone) return location.assign(whole);
    const copied = await navigator.clipboard?.writeText(whole).then(() => true, () => false);
    write(news, copied ? "The link is copied." : whole);
  }

  // A card file that is dropped on the bench goes to the first setting.
  function drop(event) {
    const [file] = event.dataTransfer.files;
    if (!data.rigs.length) return;
    event.preventDefault();
    if (event.type === "drop" && file) seats[0].take(file);
  }

  for (const name of ["dragover", "drop"]) host.addEventListener(name, drop);
  host.replaceChildren(news, place);
  for (const said of link.seats) sit(said);
  return (words) => write(news, words);
}
