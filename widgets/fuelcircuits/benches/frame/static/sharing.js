// What a bench gives away: its setting as text, which opens again here or elsewhere, and a picture.

import { element, write } from "./controls.js";
import { linkOf, seatsIn, settingOf } from "./link.js";
import { pictureOf, save } from "./picture.js";

// Put a model at the setting that a text or the end of a link stands for; whether it names any.
export function openSetting(about, model, text) {
  const [said] = seatsIn(text.slice(text.indexOf("#") + 1)).seats;
  const start = Object.fromEntries(about.controls.map(({ name, start }) => [name, start]));
  const values = settingOf(about.controls, said.values);
  if (!Object.keys(values).length && !said.pinned) return false;
  for (const [name, value] of Object.entries({ ...start, ...values })) model.set(name, value);
  model.set("pinned", said.pinned ? { ...start, ...settingOf(about.controls, said.pinned) } : {});
  model.save_changes();
  return true;
}

export function settingText(about, model) {
  const start = Object.fromEntries(about.controls.map(({ name, start }) => [name, start]));
  const values = Object.fromEntries(about.controls.map(({ name }) => [name, model.get(name)]));
  return linkOf([{ start, values, pinned: model.get("pinned") }], false) || linkOf([{ start: {}, values, pinned: {} }], false);
}

export function mountSharing(about, model, mark, root) {
  const news = element("p", { className: "fc-note", role: "status" });
  const box = (name, label, facts) => [element("label", { htmlFor: `${mark}-${name}` }, label), element("input", { type: "text", id: `${mark}-${name}`, autocomplete: "off", ...facts })];
  const [telling, text] = box("text", "This setting as text", { readOnly: true, onfocus: () => text.select() });
  const [asking, wish] = box("wish", "Open a setting", { placeholder: "its text, or a link", onkeydown: (event) => event.key === "Enter" && open() });
  const copy = element("button", { type: "button", onclick: () => navigator.clipboard?.writeText(text.value).then(() => write(news, "Copied."), () => text.focus()) }, "Copy");
  const go = element("button", { type: "button", onclick: open }, "Open");
  const name = about.title.toLowerCase().replace(/[^a-z0-9]+/g, "-");
  const picture = element("button", { type: "button", onclick: () => save(`${name}.svg`, pictureOf(root()), "image/svg+xml") }, "Save picture");
  const node = element("details", { className: "fc-share" }, element("summary", {}, "Share this setting, save a picture"), element("div", {}, telling, text, copy), element("div", {}, asking, wish, go), element("div", {}, picture), news);
  const show = () => node.open && (text.value = settingText(about, model));

  function open() {
    write(news, openSetting(about, model, wish.value.trim()) ? "Opened." : "No control of this bench is named there.");
    show();
  }
  node.addEventListener("toggle", show);
  return { node, show };
}
