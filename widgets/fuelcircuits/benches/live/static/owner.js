// A car of one's own: the card, fields with sketches, a word from Python on each as it is written,
// kept on this device and as a file; what its healthy car would read; and days at the car.

import { element, write } from "../../frame/static/controls.js";
import { keep, kept } from "../../frame/static/keep.js";
import { save } from "../../frame/static/picture.js";
import { KEYLESS, dayForm, refused, tell } from "./day.js";

const FILE = "my-car.toml";

export function mountOwner(host, data, desk) {
  const { about } = data;
  let written = { barrels: "alike", entries: {}, ran_well: {}, ...kept("written") };
  let card, day, timer = 0, asked = 0;
  const boxes = { entries: {}, ran_well: {} };
  const told = { entries: {}, ran_well: {} };

  // A box with its label and the word on it; `kind` is where its text goes.
  function field(kind, name, label) {
    const id = `fc-own-${name.replaceAll(".", "-")}`;
    const word = element("p", { id: `${id}-told` });
    const box = element("input", { type: "text", id, autocomplete: "off", "aria-describedby": word.id, oninput: changed });
    boxes[kind][name] = box;
    told[kind][name] = word;
    return [element("label", { htmlFor: id }, label), box, word];
  }

  function drawn(name) {
    const place = element("div", { className: "fc-sketch" });
    place.innerHTML = about.sketches[name];
    return place;
  }

  function entry({ entry, label, does, how, caution, drawing }) {
    const words = element("p", {}, `${does} `, element("em", {}, how));
    if (caution) words.append(element("strong", {}, " Caution. "), caution);
    return element("div", { className: "fc-entry" }, element("div", {}, ...field("entries", entry, label), words), drawn(drawing));
  }

  // A jet by what it passes.
  const [byFlow, jets] = about.by_flow;
  const jet = element("select", { id: "fc-own-jet" }, ...Object.entries(jets).map(([value, words]) => element("option", { value }, words)));
  const amount = (id, words) => [element("label", { htmlFor: id }, words), element("input", { type: "text", id, autocomplete: "off" })];
  const volume = amount("fc-own-volume", "Water in one minute [ml]"), height = amount("fc-own-head", "Head above the jet [mm]");
  const passed = element("p", { role: "status" });
  const flow = element("fieldset", {}, element("legend", {}, "A jet by what it passes"), element("div", { className: "fc-entry" }, element("div", {}, element("p", {}, byFlow), element("label", { htmlFor: jet.id }, "Jet"), jet, ...volume, ...height, element("p", {}, element("button", { type: "button", onclick: pass }, "Work the bore out")), passed), drawn("flow")));

  async function pass() {
    const entry = jet.value;
    const answer = await desk.ask({ ask: "owner", do: "flow", entry, volume: volume[1].value, head: height[1].value }).catch(refused);
    if (answer.refused) return tell(passed, [answer.refused.join(" "), "wrong"]);
    tell(passed, [`${answer.bore}, give or take 3 %; written into its field.`, "good"]);
    boxes.entries[entry].value = answer.bore;
    changed();
  }

  const title = element(host.dataset.heading, {}, "Your own car");
  const intro = element("p", {}, "Fill in what you have measured, with its unit; leave the rest empty, and it is scaled from the nearest teaching rig. All of it stays on this device: it is kept in this browser, and as a file where you save one. Nothing is sent anywhere.");
  const care = element("p", {}, "Caution: engine cold and off, battery off, no flame and no spark near while the carburettor is open. The maker's specification comes first.");
  const news = element("p", { className: "fc-news", role: "status" });
  const stands = element("p", { role: "status" });
  const fault = element("p", { className: "fc-refused", role: "alert" });
  const name = element("input", { type: "text", id: "fc-own-name", autocomplete: "off", oninput: changed });
  const barrels = element("select", { id: "fc-own-barrels", onchange: changed }, ...Object.entries(about.barrels).map(([value, words]) => element("option", { value }, words)));
  const file = element("input", { type: "file", accept: ".toml,text/plain", onchange: () => file.files.length && take(file.files[0]) });
  const found = element("div", { className: "fc-found", role: "status" });
  const check = element("button", { type: "button", onclick: work }, "What would my healthy car read?");
  const clear = element("button", { type: "button", onclick: () => fill({ barrels: "alike", entries: {}, ran_well: {} }) }, "Empty card");
  const bar = element("div", { className: "fc-bar" }, element("button", { type: "button", onclick: store }, "Save card"), element("label", { className: "fc-file" }, file, "Open card …"), clear);
  const groups = about.groups.map(([title, fields]) => element("fieldset", {}, element("legend", {}, title), ...fields.map(entry)));
  const second = groups.at(-1);
  const past = element("fieldset", {}, element("legend", {}, "When it ran well, if you know"), ...Object.entries(about.ran_well).map(([name, words]) => element("div", { className: "fc-entry" }, element("div", {}, ...field("ran_well", name, words)))));
  const head = element("p", {}, element("label", { htmlFor: name.id }, "Name of the car "), name, " ", element("label", { htmlFor: barrels.id }, "Barrels "), barrels);

  const texts = (kind) => Object.fromEntries(Object.entries(boxes[kind]).map(([name, box]) => [name, box.value]).filter(([, text]) => text.trim()));

  // Entries that the form does not ask for stay as a card's file has them.
  function read() {
    const others = Object.entries(written.entries).filter(([name]) => !(name in boxes.entries));
    const past = Object.entries(written.ran_well).filter(([name]) => !(name in boxes.ran_well));
    return { ...written, name: name.value, barrels: barrels.value, entries: { ...Object.fromEntries(others), ...texts("entries") }, ran_well: { ...Object.fromEntries(past), ...texts("ran_well") } };
  }

  function changed() {
    written = read();
    keep("written", written);
    asked += 1;
    day?.again();
    found.replaceChildren();
    clearTimeout(timer);
    timer = setTimeout(stand, KEYLESS);
  }

  function show(answer) {
    second.hidden = !answer.second;
    for (const kind of ["entries", "ran_well"]) for (const [name, word] of Object.entries(kind === "entries" ? answer.fields : answer.ran_well)) tell(told[kind][name], word);
    write(stands, answer.said);
    card = answer;
  }

  async function stand() {
    const number = asked;
    const answer = await desk.ask({ ask: "owner", do: "stand", written }).catch(refused);
    if (number !== asked) return;
    write(fault, (answer.refused ?? []).join(" "));
    if (answer.refused) return void (card = undefined);
    show(answer);
    if (Object.keys(written.entries).length) keep("card", { text: answer.text, file: FILE, name: answer.name });
  }

  // What has just been typed belongs to the card too.
  async function store() {
    clearTimeout(timer);
    await stand();
    if (card) save(FILE, card.text, "text/plain");
  }

  async function work() {
    const number = asked;
    found.replaceChildren(element("p", {}, "Working it out …"));
    const answer = await desk.ask({ ask: "owner", do: "check", written }).catch(refused);
    if (number !== asked) return;
    if (answer.refused) found.replaceChildren(...answer.refused.map((line) => element("p", { className: "fc-told-wrong" }, `✗ ${line}`)));
    else found.innerHTML = answer.check;
  }

  function fill(next) {
    written = { barrels: "alike", ...next };
    name.value = written.name ?? "";
    barrels.value = written.barrels;
    for (const kind of ["entries", "ran_well"]) for (const [name, box] of Object.entries(boxes[kind])) box.value = written[kind][name] ?? "";
    changed();
  }

  async function take(chosen) {
    const answer = await desk.ask({ ask: "owner", do: "open", text: await chosen.text(), file: chosen.name }).catch(refused);
    write(fault, (answer.refused ?? []).join(" "));
    if (!answer.refused) fill(answer.written);
    file.value = "";
  }

  host.replaceChildren(title, intro, care, news, bar, fault, head, ...groups, flow, past, stands, check, found);
  show(about.first);
  fill(written);
  day = dayForm(data.day, desk, () => written, host.dataset.heading.replace(/\d/, (level) => Number(level) + 1));
  host.append(...day.parts);
  return (words) => write(news, words);
}
