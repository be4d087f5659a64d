// The page of a bench: it draws what the table says that stands in this file.

import { render } from "./bench.js";
import { unpack } from "./blend.js";
import { element } from "./controls.js";
import { pageModel } from "./model.js";
import { openSetting, settingText } from "./sharing.js";

const read = (id) => document.getElementById(id).textContent;

function open(table) {
  const place = document.getElementById("bench");
  const about = JSON.parse(read("about"));
  const seats = [];
  const two = element("button", { type: "button", onclick: () => (seats.length > 1 ? leave() : sit(settingText(about, seats[0].model))) }, "Two settings");

  function sit(setting) {
    const second = seats.length > 0;
    const own = second ? { ...about, title: `${about.title}, second setting`, heading: "h2" } : about;
    const model = pageModel(own, table);
    const el = element("div", {});
    place.append(el);
    seats.push({ model, el, stop: render({ model, el }) });
    openSetting(own, model, setting);
    dress();
  }

  function leave() {
    const { el, stop } = seats.pop();
    stop();
    el.remove();
    dress();
  }

  function dress() {
    place.classList.toggle("fc-two", seats.length > 1);
    two.setAttribute("aria-pressed", seats.length > 1);
  }

  place.append(element("div", { className: "fc-pages" }, two));
  sit(location.hash);
}

unpack(read("table")).then(open);
