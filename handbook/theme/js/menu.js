// The menu opens and closes by itself. It also closes when the reader goes on elsewhere, here or on another page, and
// when Escape is pressed. Which colours the theme shows is marked as the menu opens.
"use strict";
(() => {
  const menu = document.querySelector(".menu");
  if (!menu) return;

  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !menu.open) return;
    menu.open = false;
    menu.querySelector("summary").focus();
  });
  const colours = menu.querySelector(".light-or-dark");
  colours.hidden = false;
  menu.addEventListener("toggle", () => {
    const { mdColorScheme: shown } = document.body.dataset;
    for (const choice of colours.querySelectorAll("input")) choice.checked = choice.dataset.mdColorScheme === shown;
  });
  addEventListener("pagehide", () => (menu.open = false)); // else it is open when the reader comes back
  for (const kind of ["click", "focusin"]) {
    document.addEventListener(kind, (event) => {
      if (!menu.contains(event.target)) menu.open = false;
    });
  }
})();
