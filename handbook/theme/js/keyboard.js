// The theme opens its menu and its sections with labels. A keyboard cannot reach all of them, and no screen reader
// knows them as buttons; here they become buttons. The hidden checkbox that a label worked goes on holding the state.
"use strict";
(() => {
  const OPENERS = ".md-header label[for=__drawer], .md-nav--primary label.md-nav__link";

  const asButton = (label) => {
    const toggle = document.getElementById(label.htmlFor);
    const button = document.createElement("button");
    for (const { name, value } of label.attributes) {
      if (name !== "tabindex") button.setAttribute(name, value); // the theme's styles look for the rest
    }
    button.type = "button";
    button.append(...label.childNodes);
    const tell = () => button.setAttribute("aria-expanded", toggle.checked);
    button.addEventListener("click", () => toggle.click());
    toggle.addEventListener("change", tell);
    tell();
    label.replaceWith(button);
  };
  document.querySelectorAll(OPENERS).forEach(asButton);

  const drawer = document.getElementById("__drawer");
  const behind = document.querySelectorAll(".md-content, .md-footer");
  drawer.addEventListener("change", () => behind.forEach((part) => (part.inert = drawer.checked)));
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !drawer.checked) return;
    drawer.click();
    document.querySelector(".md-header [for=__drawer]").focus();
  });
})();
