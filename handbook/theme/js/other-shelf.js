// Where something else is on the shelf today (js/today/todays_shelf.js keeps it in this browser), pages that go by the
// school's own shelf say so, also when they are gone back to. Without this script they say nothing of it.
"use strict";
{
  const KEPT_AS = `sharing-handbook-shelf ${new URL("..", document.currentScript.src).pathname}`;

  const tell = () => {
    const isOther = localStorage.getItem(KEPT_AS) !== null;
    document.documentElement.classList.toggle("has-other-shelf", isOther);
  };
  addEventListener("pageshow", tell);
  addEventListener("storage", tell);
  tell();
}
