"use strict";
const shown = document.currentScript.dataset.version;
setInterval(() => {
  fetch("/preview-version", {cache: "no-store"})
    .then((answer) => answer.text())
    .then((version) => { if (version !== shown) location.reload(); })
    .catch(() => {});
}, 500);
