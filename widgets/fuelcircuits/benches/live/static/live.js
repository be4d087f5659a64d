// The live benches of a page: drawn at once as they were worked out when the page was built, then
// answered by Python in the page.

import { lacking, openDesk } from "./asking.js";
import { kept } from "../../frame/static/keep.js";
import { rememberPython, workOffline } from "./offline.js";
import { mountDriven } from "./driven.js";
import { mountOwner } from "./owner.js";
import { mountLive } from "./shelf.js";

// What to say while Python comes; nothing once it is there.
function progress({ came, ready, failed }, bytes) {
  if (failed) return `The model cannot run here (${failed}); a browser of 2023 or later can. What is shown is the bench at its first setting.`;
  if (ready) return "";
  const part = Math.min(100, 5 * Math.round((20 * came) / bytes));
  const comes = part > 0 && part < 100 ? `is on its way: ${part} % of ${(bytes / 1e6).toFixed(1)} MB` : "starts";
  return `Python ${comes}. What you set already is worked out once it is there.`;
}

const dataIn = (node) => JSON.parse(node.textContent);

function start() {
  const { root, home, release, bytes } = dataIn(document.getElementById("fc-release"));
  const worker = new URL(`${home}worker.js?${release}`, location.href);
  const hosts = [...document.querySelectorAll(".fc-live, .fc-driven, .fc-owner")];
  const offline = () => workOffline(root, document.getElementById("fc-offline"));
  const { dataset } = document.documentElement;
  const told = [];

  // What Python needs is fetched first, all the rest once it is there.
  function tell(status) {
    for (const say of told) say(progress(status, bytes));
    if (status.failed) dataset.python = "failed";
    if (!status.ready || dataset.python) return;
    dataset.python = "ready";
    offline().then((is) => is && rememberPython(worker, release));
  }

  if (!hosts.length) return offline();
  const card = kept("card");
  const desk = openDesk(worker, release, tell, card ? [{ ask: "card", text: card.text, file: card.file }] : []);
  if (hosts.some(({ dataset: { alone } }) => alone !== undefined) && !lacking()) desk.start(); // before the page is built
  const near = new IntersectionObserver((seen) => seen.some((each) => each.isIntersecting) && desk.start());
  for (const host of hosts) {
    const mount = host.classList.contains("fc-owner") ? mountOwner : host.classList.contains("fc-driven") ? mountDriven : mountLive;
    told.push(mount(host, dataIn(host.querySelector("script")), desk));
    near.observe(host);
  }
  tell(desk.status);
  if (lacking()) desk.fail(`it lacks ${lacking()}`);
}

start();
