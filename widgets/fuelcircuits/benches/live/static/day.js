// A day at a car of one's own: what gauges showed, what was seen without any, and what that tells.
// Once the report was asked for, it follows every reading that is written down.

import { element, write } from "../../frame/static/controls.js";
import { keep, kept } from "../../frame/static/keep.js";
import { save } from "../../frame/static/picture.js";

export const KEYLESS = 300; // milliseconds without a key before Python is asked
const MARKS = { good: "✓ ", odd: "⚠ ", wrong: "✗ " };
const DAYS = "my-car-days.toml";
const ANSWERS = [["", "not looked"], ["no", "no"], ["yes", "yes"]];

export function tell(node, [words, how]) {
  node.className = `fc-told-${how || "plain"}`;
  write(node, `${MARKS[how] ?? ""}${words}`);
}

export const refused = (error) => ({ refused: [error.message] });

// The day as this device has it, as a date is written in a file of days.
export function today(now = new Date()) {
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
}

// The form; `written` gives the card as it is now, `heading` is the element of its title.
export function dayForm(about, desk, written, heading) {
  const boxes = { place: {}, readings: {} }, told = { place: {}, readings: {} }, looks = {}, tools = {};
  let read = { readings: {}, seen: {}, owned: [], others: [], ...kept("read") };
  let stood, timer = 0, asked = 0, live = false;

  // A box with its label and the word on it.
  function field(kind, name, label) {
    const id = `fc-day-${name}`, word = element("p", { id: `${id}-told` });
    const box = element("input", { type: "text", id, autocomplete: "off", "aria-describedby": word.id, oninput: changed });
    boxes[kind][name] = box;
    told[kind][name] = word;
    return element("div", { className: "fc-entry" }, element("div", {}, element("label", { htmlFor: id }, label), box, word));
  }

  function look([name, [label, how, needs, caution]]) {
    const id = `fc-day-${name}`, words = element("p", { id: `${id}-how` }, `${how} `, element("em", {}, needs));
    if (caution) words.append(element("strong", {}, " Caution. "), caution);
    looks[name] = element("select", { id, "aria-describedby": words.id, onchange: changed }, ...ANSWERS.map(([value, said]) => element("option", { value }, said)));
    return element("div", { className: "fc-entry" }, element("div", {}, element("label", { htmlFor: id }, label), looks[name], words));
  }

  function tool(name) {
    tools[name] = element("input", { type: "checkbox", onchange: changed });
    return element("label", {}, tools[name], ` ${name}`);
  }

  const group = (title, ...parts) => element("fieldset", {}, element("legend", {}, title), ...parts);
  const named = (kind, labels) => Object.entries(labels).map(([name, label]) => field(kind, name, label));
  const day = element("input", { type: "text", id: "fc-day", autocomplete: "off", placeholder: "2026-05-02", oninput: changed });
  const date = element("div", { className: "fc-entry" }, element("div", {}, element("label", { htmlFor: day.id }, "Day"), day));
  const file = element("input", { type: "file", accept: ".toml,text/plain", onchange: () => file.files.length && take(file.files[0]) });
  const fault = element("p", { className: "fc-refused", role: "alert" });
  const stands = element("p", { role: "status" }), progress = element("p", { role: "status" });
  const found = element("div", { className: "fc-report" });
  const bar = element("div", { className: "fc-bar" },
    element("button", { type: "button", onclick: store }, "Save readings"),
    element("label", { className: "fc-file" }, file, "Open readings …"),
    element("button", { type: "button", onclick: () => fill({}) }, "Empty day"));
  const parts = [
    element(heading, {}, "What you read and saw"),
    element("p", {}, "The readings of a day stay on this device like the card, and as a file of their own where you save one; the owner's notebook opens both. Cranking after a hot stop and the pump's shot the model works out too slowly for a page: these only the notebook takes."),
    bar, fault,
    group("Where, and on what", date, ...named("place", about.place)),
    group("Read on gauges", element("p", {}, about.how), ...named("readings", about.checks)),
    group("Seen, heard or smelt, without a gauge", ...Object.entries(about.looks).map(look)),
    group("Tools that you have", element("p", { className: "fc-tools" }, ...about.tools.map(tool))),
    stands,
    element("button", { type: "button", onclick: () => ((live = true), rank()) }, "What is likely wrong?"),
    progress, found,
  ];

  const filled = (all, text) => Object.fromEntries(Object.entries(all).map(([name, box]) => [name, text(box)]).filter(([, words]) => words));

  // What a file has and the form does not ask for stays as it is.
  function now() {
    const others = Object.entries(read.readings).filter(([name]) => !(name in boxes.readings));
    const readings = { ...Object.fromEntries(others), ...filled(boxes.readings, (box) => box.value.trim()) };
    const place = Object.fromEntries(Object.entries(boxes.place).map(([name, box]) => [name, box.value]));
    const owned = Object.keys(tools).filter((name) => tools[name].checked);
    return { ...read, ...place, day: day.value.trim(), readings, seen: filled(looks, (box) => box.value), owned };
  }

  function changed() {
    read = now();
    keep("read", read);
    again();
  }

  // Card or day are other than they were: ask anew once no key has been pressed for a moment.
  function again() {
    asked += 1;
    if (!live) found.replaceChildren();
    write(progress, live ? "Something has changed; the report follows." : "");
    clearTimeout(timer);
    timer = setTimeout(() => stand().then((good) => good && live && rank()), KEYLESS);
  }

  async function stand() {
    const number = asked;
    const answer = await desk.ask({ ask: "day", do: "stand", written: written(), read }).catch(refused);
    if (number !== asked) return false;
    write(fault, (answer.refused ?? []).join(" "));
    stood = answer.refused ? undefined : answer;
    if (!stood) return false;
    const fits = new Set(stood.fits);
    for (const [name, words] of Object.entries(stood.told)) {
      tell(told.readings[name], words);
      boxes.readings[name].closest(".fc-entry").hidden = !fits.has(name);
    }
    for (const [name, words] of Object.entries(stood.place)) tell(told.place[name], words);
    write(stands, stood.said);
    return true;
  }

  async function store() {
    clearTimeout(timer);
    await stand();
    if (stood?.text) save(DAYS, stood.text, "text/plain");
  }

  // Ask for one step after the other, so that a box is answered in between.
  async function rank() {
    const number = (asked += 1);
    write(progress, "Working out what your healthy car would show …");
    for (;;) {
      const answer = await desk.ask({ ask: "day", do: "report", written: written(), read }).catch(refused);
      if (number !== asked) return;
      if (answer.refused) {
        found.replaceChildren();
        return write(progress, `✗ ${answer.refused.join(" ")}`);
      }
      if ("share" in answer) write(progress, `Working out what every fault would show on your car: ${Math.round(100 * answer.share)} %. It takes about a minute, once for a card.`);
      else found.innerHTML = answer.report;
      if (answer.whole) return write(progress, "The report is whole, and follows what you change above.");
      if ("whole" in answer) write(progress, "These are the suspects; the next step is being looked for …");
    }
  }

  function fill(next) {
    read = { readings: {}, seen: {}, others: read.others, owned: read.owned, ...next };
    day.value = read.day || today();
    for (const [name, box] of Object.entries(boxes.place)) box.value = read[name] ?? "";
    for (const [name, box] of Object.entries(boxes.readings)) box.value = read.readings[name] ?? "";
    for (const [name, box] of Object.entries(looks)) box.value = read.seen[name] ?? "";
    for (const [name, box] of Object.entries(tools)) box.checked = read.owned.includes(name);
    changed();
  }

  async function take(chosen) {
    const answer = await desk.ask({ ask: "day", do: "open", text: await chosen.text(), file: chosen.name }).catch(refused);
    write(fault, (answer.refused ?? []).join(" "));
    if (!answer.refused) fill(answer.read);
    file.value = "";
  }

  fill(read);
  return { parts, again };
}
