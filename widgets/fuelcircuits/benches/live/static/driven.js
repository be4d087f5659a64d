// The driven carburettor on a page: the rig above it, what a link says of the drive, and where a
// part's own bench is.
//   #rig=dunlin&journey=floored&fault=torn-pump-cup&engine=cold&altitude=1500&outside=268

import { element, write } from "../../frame/static/controls.js";
import { mountDrive } from "../../drive/static/drive.js";
import { keep, kept } from "../../frame/static/keep.js";
import { OWN } from "./seat.js";

const SAID = ["engine", "fault"], COUNTED = ["altitude", "outside", "severity"];

// What a link says of an outing; what there is none of is passed over.
export function outingIn(link, about) {
  const said = new URLSearchParams(link);
  const known = { engine: Object.keys(about.engines), fault: Object.keys({ ...about.cars, ...about.faults }) };
  const words = SAID.filter((name) => known[name].includes(said.get(name))).map((name) => [name, said.get(name)]);
  const numbers = COUNTED.filter((name) => said.get(name)?.trim() && Number.isFinite(Number(said.get(name)))).map((name) => [name, Number(said.get(name))]);
  return { outing: Object.fromEntries([...words, ...numbers]), journey: said.get("journey") ?? "" };
}

const settledOtherwise = (outing, start) => Object.entries(outing).filter(([name, value]) => [...SAID, ...COUNTED].includes(name) && value !== start[name] && value !== "hidden");

export function mountDriven(host, data, desk) {
  const alone = "alone" in host.dataset;
  const news = element("p", { className: "fc-news", role: "status" });
  const fault = element("p", { className: "fc-refused", role: "alert" });
  const list = element("select", { onchange: () => go(list.value) });
  const place = element("div");
  const link = alone ? location.hash.slice(1) : data.said;
  const bar = element("label", { className: "fc-rig" }, "Rig ", list);
  let rig = "", drive;

  function options() {
    const card = kept("card");
    const names = [...data.rigs.map((name) => [name, name]), ...(card ? [[OWN, `${card.name} (your card)`]] : [])];
    list.replaceChildren(...names.map(([value, text]) => element("option", { value, selected: value === rig }, text)));
  }

  async function partOf(name) {
    if (name === OWN) return desk.ask({ ask: "drive", rig: OWN, do: "about" });
    const { about, first } = data.parts[name];
    return { about: { ...about, drawing: data.drawing }, first };
  }

  function told(outing, side) {
    if (side) keep("units", side);
    if (!alone) return;
    const parts = [["rig", rig], ...settledOtherwise(outing, drive?.about.outing ?? outing)];
    history.replaceState(null, "", `#${new URLSearchParams(parts)}`);
  }

  // A part's bench at the state of a moment, on a page of its own.
  function open({ stem, values, at, line, notes }, say) {
    const set = { rig, ...values, ...(at === null ? {} : { at }) };
    const parts = Object.entries(set).map(([name, value]) => [name, String(value)]);
    const way = new URL(data.page, location.href);
    const address = new URL(`${stem}.html#${new URLSearchParams(parts)}`, way);
    say(`Opened beside this page. ${notes.join(" ")} In a notebook: ${line}`);
    globalThis.open(address, "_blank", "noopener");
  }

  async function go(name) {
    const part = await partOf(name).catch((error) => ({ refused: [error.message] }));
    write(fault, (part.refused ?? []).join(" "));
    if (part.refused) return options();
    drive?.stop();
    rig = name;
    keep("rig", name);
    options();
    const { outing, journey } = outingIn(link, part.about);
    const ask = (asked) => desk.ask({ ask: "drive", rig, ...asked });
    place.replaceChildren();
    const made = mountDrive({ el: place, ...part, ask, said: outing, system: kept("units") ?? "SI", heading: host.dataset.heading, tools: [bar], told, open });
    drive = { ...made, about: part.about };
    made.outset.choose(journey);
    if (Object.keys(outing).length) made.begin({ ...part.about.outing, ...outing });
  }

  const wanted = [new URLSearchParams(link).get("rig"), kept("rig"), data.rigs[0]];
  host.replaceChildren(news, fault, place);
  go(wanted.find((name) => data.rigs.includes(name) || (name === OWN && kept("card"))));
  return (words) => write(news, words);
}
