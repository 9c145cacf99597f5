// Where something else is on the shelf today (js/today/todays_shelf.js keeps it in this browser), pages that go by the
// school's own shelf say so. Without this script they say nothing of it.
"use strict";
(() => {
  let kept = null;
  try {
    kept = localStorage.getItem("sharing-handbook-shelf");
  } catch {
    // A browser that keeps nothing has no other shelf.
  }
  document.documentElement.classList.toggle("has-other-shelf", kept !== null);
})();
