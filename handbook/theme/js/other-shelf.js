// Where something else is on the shelf today (js/today/todays_shelf.js keeps it in this browser), pages that go by the
// school's own shelf say so. Without this script they say nothing of it.
"use strict";
document.documentElement.classList.toggle("has-other-shelf", localStorage.getItem("sharing-handbook-shelf") !== null);
