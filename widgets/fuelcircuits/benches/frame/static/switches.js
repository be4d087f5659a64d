// A row of words of which one is chosen, and which theme the page around a bench has.

import { element } from "./controls.js";

export function choice(legend, mark, options, current, pick) {
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

const DARK = window.matchMedia("(prefers-color-scheme: dark)");

function themeOf() {
  const { jpThemeLight: lab, theme } = document.body.dataset; // of JupyterLab, of a website
  if (lab) return lab === "true" ? "light" : "dark";
  if (theme === "light" || theme === "dark") return theme;
  return DARK.matches ? "dark" : "light";
}

// Dress `root` in the theme around it, now and whenever it changes; return what ends that.
export function followTheme(root) {
  const dress = () => (root.dataset.theme = themeOf());
  const themes = new MutationObserver(dress);
  themes.observe(document.body, { attributeFilter: ["data-jp-theme-light", "data-theme"] });
  DARK.addEventListener("change", dress);
  dress();
  return () => {
    themes.disconnect();
    DARK.removeEventListener("change", dress);
  };
}
