// The theme opens its menus beside the text by labels, which no key reaches: put buttons there.

for (const label of document.querySelectorAll("label.nav-overlay-icon, label.toc-overlay-icon:not(.no-toc)")) {
  const box = document.getElementById(label.htmlFor);
  const button = document.createElement("button");
  const tell = () => button.setAttribute("aria-expanded", String(box.checked));
  Object.assign(button, { type: "button", className: label.className, ariaLabel: box.getAttribute("aria-label") });
  button.append(...label.childNodes);
  button.addEventListener("click", () => box.click());
  document.addEventListener("keydown", ({ key }) => {
    if (key !== "Escape" || !box.checked || !button.checkVisibility()) return;
    box.click();
    button.focus();
  });
  box.addEventListener("change", tell);
  tell();
  label.replaceWith(button);
}
