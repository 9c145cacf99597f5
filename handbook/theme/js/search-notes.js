// The line above what a search has found: what was asked instead of words that the handbook does not have, and where to
// go where nothing is found. The search worker tells both with its answer.
"use strict";
(() => {
  const RESULT = 3; // the theme's number for an answer
  const note = document.getElementById("search-note");
  if (!note) return;

  const copyOf = (id) => document.getElementById(id).content.cloneNode(true);

  const corrected = (asked, shown) => {
    const line = document.createElement("p");
    line.append(copyOf("search-corrected"));
    line.querySelector(".asked").textContent = asked;
    line.querySelector(".shown").textContent = shown;
    return line;
  };

  const tell = ({ data: { type, data } }) => {
    if (type !== RESULT) return;
    note.replaceChildren();
    if (!data.items.length && data.asked.trim()) note.append(copyOf("search-ways"));
    else if (data.shown) note.append(corrected(data.asked, data.shown));
  };

  const Worker = window.Worker;
  // Called as `new Worker(address)` by the theme, which starts no other worker than that of the search.
  window.Worker = function ToldWorker(address) {
    const worker = new Worker(address);
    worker.addEventListener("message", tell);
    return worker;
  };
})();
