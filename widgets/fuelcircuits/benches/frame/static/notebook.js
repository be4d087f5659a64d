// A bench in a notebook: one setting, or two beside each other, each with its own drawing.

import { render } from "./bench.js";
import { element } from "./controls.js";

function renderSeats({ model, el }) {
  const two = element("button", { type: "button", onclick: () => model.send({ twin: !model.get("twin") }) }, "Two settings");
  const first = element("div", {}), second = element("div", {});
  const seats = element("div", { className: "fc-seats" }, first, second);
  let shown = "", stop = () => {};

  // The second setting is a bench of its own in the kernel, which the model names.
  async function dress() {
    const name = model.get("twin") ?? "";
    if (name === shown) return;
    shown = name;
    stop();
    stop = () => {};
    second.replaceChildren();
    two.setAttribute("aria-pressed", name !== "");
    seats.classList.toggle("fc-two", name !== "");
    if (!name) return;
    const other = await model.widget_manager.get_model(name.replace("IPY_MODEL_", ""));
    if (name === shown) stop = render({ model: other, el: second });
  }

  el.append(element("div", { className: "fc-pair" }, element("div", { className: "fc-pages" }, two), seats));
  const end = render({ model, el: first });
  model.on("change:twin", dress);
  dress();

  return () => {
    model.off("change:twin", dress);
    stop();
    end();
  };
}

export default { render: renderSeats };
