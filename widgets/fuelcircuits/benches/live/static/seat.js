// A place for one bench at one setting on one rig, with a card of one's own if there is one.

import { render } from "../../frame/static/bench.js";
import { element } from "../../frame/static/controls.js";
import { GLANCE, answeredModel } from "./answering.js";
import { keep, kept } from "../../frame/static/keep.js";
import { settingOf } from "../../frame/static/link.js";
import { pictureOf, save } from "../../frame/static/picture.js";

export const OWN = "own";
const STEPS = 4; // of the first slider, prepared before anybody asks

// `shelf` is { data, desk, system(), changed(), units(side), moved(seat, name, value), carded() };
// `tools` stand in its bar, `said` is what a link says of the setting.
export function openSeat(shelf, { title, heading, tools, said }) {
  const { data, desk } = shelf;
  const place = element("div");
  const fault = element("div", { className: "fc-refused", role: "alert" });
  const list = element("select", { onchange: () => go(list.value) });
  const file = element("input", { type: "file", accept: ".toml,text/plain", onchange: () => file.files.length && take(file.files[0]) });
  const picture = element("button", { type: "button", onclick: () => save(`${data.stem}.svg`, pictureOf(place.firstChild), "image/svg+xml") }, "Save picture");
  const rigs = data.rigs.length ? [element("label", {}, "Rig ", list), element("label", { className: "fc-file" }, file, "Card file …")] : [];
  const node = element("div", { className: "fc-seat" }, element("div", { className: "fc-bar" }, ...rigs, ...tools, picture), fault, place);
  let rig = "", model, start = {}, stop = () => {};

  function refuse(lines) {
    const list = element("ul", {}, ...lines.map((line) => element("li", {}, line)));
    fault.replaceChildren(...(lines.length ? [element("p", {}, "This card cannot be used here yet:"), list] : []));
  }

  function options(chosen = rig) {
    const card = kept("card");
    const names = [...data.rigs.map((name) => [name, name]), ...(card ? [[OWN, `${card.name} (your card)`]] : [])];
    list.replaceChildren(...names.map(([value, text]) => element("option", { value, selected: value === chosen }, text)));
  }

  // What stands on the page for this rig, or what Python makes of a card.
  async function partOf(name) {
    if (name !== OWN) return bakedPart(data, name, shelf.system());
    return desk.ask({ ask: "bench", stem: data.stem, rig: name, system: shelf.system() });
  }

  // `at` is the time of a run at which it is shown.
  function mount(part, values, pinned, at) {
    stop();
    place.replaceChildren();
    const about = { ...part.about, title, heading, barred: true };
    start = part.start;
    const ask = (asked) => desk.ask({ ask: "answer", stem: data.stem, rig, ...asked });
    const prepare = (asked) => desk.prepare({ ask: "onward", stem: data.stem, rig, ...asked });
    model = answeredModel({ ...part, about, values, pinned, at }, shelf.system(), ask, prepare);
    model.on("saved", shelf.changed);
    model.on("change:system", () => shelf.units(model.get("system")));
    for (const { name } of about.controls) model.on(`change:${name}`, () => shelf.moved(seat, name, model.get(name)));
    stop = render({ model, el: place });
    model.work();
    const [slider] = about.controls.filter(({ kind }) => kind === "number");
    if (slider) prepare({ values: model.values(), system: shelf.system(), moved: slider.name, within: GLANCE, steps: STEPS });
  }

  // What has been moved here, as a link would say it.
  const moved = () => Object.fromEntries(Object.entries(model.values()).filter(([name, value]) => value !== start[name]).map(([name, value]) => [name, String(value)]));

  // Go to a rig with what has been moved as it stands; where a bench refuses a card, stay, or
  // begin with the first rig and say why.
  async function go(name, { values, pinned } = { values: moved() }, why = []) {
    if (!model) options(name);
    if (!model && name === OWN) place.textContent = "Your card is read as soon as Python is there.";
    const part = await partOf(name).catch((error) => ({ refused: [error.message] }));
    refuse(part.refused ?? why);
    if (part.refused && !model) return go(data.rigs[0], { values, pinned }, part.refused);
    if (!part.refused) {
      rig = name;
      const { controls } = part.about;
      mount(part, settingOf(controls, values), pinned && { ...part.start, ...settingOf(controls, pinned) }, Number(values.at) || 0);
      shelf.changed();
    }
    options();
  }

  async function take(chosen) {
    const text = await chosen.text();
    const { name, refused } = await desk.ask({ ask: "card", text, file: chosen.name }).catch((error) => ({ refused: [error.message] }));
    refuse(refused ?? []);
    if (refused) return;
    keep("card", { text, file: chosen.name, name });
    shelf.carded();
    await go(OWN);
  }

  const seat = {
    node,
    options,
    take,
    stop: () => stop(),
    model: () => model,
    state: () => ({ rig, start, values: model?.values() ?? start, pinned: model?.get("pinned") ?? {} }),
  };
  go(said.rig, said);
  return seat;
}

// The part of a page that was worked out when it was built.
function bakedPart({ parts, drawing }, rig, system) {
  const { about, start, said } = parts[rig];
  return { about: { ...about, drawing }, start, first: { ...said.SI, ...(system === "US" ? said.US : {}) } };
}
