// The bench on the page: drawing and plot above, controls and readings below.

let benches = 0;
const PAUSE = 800; // milliseconds of quiet before the readings are read out

function choice(legend, mark, options, current, pick) {
  const name = `${mark}-${legend.toLowerCase()}`;
  const group = element("fieldset", { className: "fc-choice" }, element("legend", {}, legend));
  const radios = options.map(({ text, value }, i) => {
    const radio = element("input", { type: "radio", name, id: `${name}-${i}`, onchange: () => pick(value) });
    group.append(radio, element("label", { htmlFor: radio.id }, text));
    return radio;
  });
  const show = (now) => options.forEach(({ value }, i) => (radios[i].checked = value === now));
  show(current);
  return { group, show };
}

function table(readings) {
  const compared = readings.some((line) => line.before);
  const heads = compared ? ["Reading", "Before", "Now"] : ["Reading", "Now"];
  const head = heads.map((text) => element("th", { scope: "col" }, text));
  const rows = readings.map((line) => {
    const cells = (compared ? [line.before, line.now] : [line.now]).map((text) => element("td", {}, text));
    const changed = compared && line.before !== line.now ? "fc-changed" : "";
    return element("tr", { className: changed }, element("th", { scope: "row" }, line.label), ...cells);
  });
  return [element("thead", {}, element("tr", {}, ...head)), element("tbody", {}, ...rows)];
}

function themeOf() {
  const lab = document.body.dataset.jpThemeLight;
  if (lab) return lab === "true" ? "light" : "dark";
  return window.matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
}

function render({ model, el }) {
  const mark = `fc${(benches += 1)}`;
  const about = model.get("about");
  const send = (name, value) => {
    model.set(name, value);
    model.save_changes();
  };

  const stage = element("div", { className: "fc-drawing" });
  const drawing = mountDrawing(stage, about.drawing, mark);
  const image = element("img", { className: "fc-plot" });
  const verdict = element("p", { className: "fc-verdict" });
  const voice = element("p", { className: "fc-voice", role: "status" });
  const readings = element("table", { className: "fc-readings" });
  const drawn = element("p");
  const plotted = element("p");
  const controls = about.controls.map((spec) => mountControl(spec, mark, model));

  const pin = element("button", { type: "button", title: "Keep this state, dashed, to compare with", onclick: () => send("pinned", !model.get("pinned")) }, "Pin");
  const reset = element("button", { type: "button", title: "Put every control back" }, "Reset");
  reset.addEventListener("click", () => {
    for (const control of controls) control.reset();
    model.save_changes();
  });
  const sides = [{ text: "SI", value: "SI" }, { text: "US shop", value: "US" }];
  const units = choice("Units", mark, sides, model.get("system"), (side) => send("system", side));
  const views = [{ text: "Whole", value: undefined }, ...drawing.views.map(({ name, box }) => ({ text: name, value: box }))];
  const view = choice("View", mark, views, undefined, drawing.zoom);
  view.group.hidden = drawing.views.length === 0;

  const root = element(
    "section",
    { className: "fc-bench", "aria-label": about.title },
    element("header", {}, element("h3", {}, about.title), view.group, units.group, pin, reset),
    verdict,
    element("div", { className: "fc-sight" }, stage, image),
    element(
      "div",
      { className: "fc-desk" },
      element("div", { className: "fc-controls", role: "group", "aria-label": "Controls" }, ...controls.map(({ node }) => node)),
      element("div", { className: "fc-table" }, readings),
    ),
    element("details", {}, element("summary", {}, "Drawing and plot in words"), drawn, plotted),
    voice,
  );

  let timer = 0;
  function speak() {
    const lines = model.get("readings").slice(0, 3).map((line) => `${line.label}: ${line.now}`);
    voice.textContent = [model.get("verdict"), ...lines].join(" ");
  }
  const shows = {
    numbers: () => drawing.aim(model.get("numbers")),
    drawn() {
      drawn.textContent = model.get("drawn");
      drawing.svg.setAttribute("aria-label", model.get("drawn"));
    },
    plotted() {
      plotted.textContent = image.alt = model.get("plotted");
    },
    plot() {
      const old = image.src;
      image.src = URL.createObjectURL(new Blob([model.get("plot")], { type: "image/png" }));
      if (old) URL.revokeObjectURL(old);
    },
    readings: () => readings.replaceChildren(...table(model.get("readings"))),
    verdict() {
      verdict.textContent = model.get("verdict");
      clearTimeout(timer);
      timer = setTimeout(speak, PAUSE);
    },
    alarm: () => verdict.classList.toggle("fc-alarm", model.get("alarm")),
    system: () => units.show(model.get("system")),
    pinned: () => pin.setAttribute("aria-pressed", model.get("pinned")),
  };
  for (const [name, show] of Object.entries(shows)) {
    model.on(`change:${name}`, show);
    show();
  }

  const dress = () => {
    root.dataset.theme = themeOf();
    send("theme", root.dataset.theme);
  };
  const themes = new MutationObserver(dress);
  themes.observe(document.body, { attributeFilter: ["data-jp-theme-light"] });
  dress();
  el.append(root);

  return () => {
    themes.disconnect();
    clearTimeout(timer);
    drawing.stop();
    for (const control of controls) control.stop();
    for (const [name, show] of Object.entries(shows)) model.off(`change:${name}`, show);
    if (image.src) URL.revokeObjectURL(image.src);
  };
}

export default { render };
