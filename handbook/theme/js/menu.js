// The menu opens and closes by itself. It also closes when the reader goes on elsewhere, here or on another page, and
// when Escape is pressed.
"use strict";
(() => {
  const menu = document.querySelector(".menu");
  if (!menu) return;

  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !menu.open) return;
    menu.open = false;
    menu.querySelector("summary").focus();
  });
  addEventListener("pagehide", () => (menu.open = false)); // else it is open when the reader comes back
  for (const kind of ["click", "focusin"]) {
    document.addEventListener(kind, (event) => {
      if (!menu.contains(event.target)) menu.open = false;
    });
  }
})();
