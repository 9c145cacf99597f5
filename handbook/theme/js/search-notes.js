// The line above what a search has found: the words that were asked in place of unknown ones, or where to go if nothing
// is found. The search worker sends both with its answer. The line is read out once, when nothing more is typed, and
// every result by its name. Enter pressed before the answer is there opens the first result when it comes.
"use strict";
(() => {
  const RESULT = 3; // the theme's number for an answer
  const PAUSE = 1000; // milliseconds without another answer
  const note = document.getElementById("search-note");
  const heard = document.getElementById("search-heard");
  const count = document.querySelector(".md-search-result__meta");
  const list = document.querySelector(".md-search-result__list");
  const field = document.querySelector(".md-search__input");
  if (!note || !heard || !count || !list || !field) return;
  let pause;
  let answered; // what was asked for the results that are shown
  let isAwaited = false; // whether Enter was pressed before they were

  const copyOf = (id) => document.getElementById(id).content.cloneNode(true);

  const corrected = (asked, shown) => {
    const line = document.createElement("p");
    line.append(copyOf("search-corrected"));
    line.querySelector(".asked").textContent = asked;
    line.querySelector(".shown").textContent = shown;
    return line;
  };

  const say = (isFound) => {
    const line = note.querySelector("p")?.textContent ?? "";
    heard.textContent = isFound ? `${line} ${count.textContent}`.trim() : line;
  };

  const open = () => field.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));

  const tell = ({ data: { type, data } }) => {
    if (type !== RESULT) return;
    answered = data.asked;
    if (isAwaited && answered === field.value) setTimeout(open); // the theme shows the results first
    const isFound = data.items.length > 0;
    const leadsOn = !isFound && data.asked.trim();
    if (!leadsOn) note.replaceChildren(...(data.shown ? [corrected(data.asked, data.shown)] : []));
    else if (!note.querySelector("a")) note.replaceChildren(copyOf("search-ways")); // else one may have the focus
    clearTimeout(pause);
    pause = setTimeout(say, PAUSE, isFound);
  };

  // The theme asks at every key; what is pasted from a menu or dictated comes without one.
  field.addEventListener("input", () => field.dispatchEvent(new KeyboardEvent("keyup")));

  // At Enter the theme opens the first of the results that are shown, also if these answer what was typed before.
  const wait = (event) => {
    isAwaited = event.key === "Enter" && event.target === field && field.value !== answered;
    if (!isAwaited) return;
    event.preventDefault();
    event.stopPropagation();
  };
  document.addEventListener("keydown", wait, { capture: true });

  // The theme puts an article into the link of a result, and from an article a browser takes no name for a link.
  const named = new MutationObserver(() => {
    for (const article of list.querySelectorAll("article:not([role])")) article.setAttribute("role", "presentation");
  });
  named.observe(list, { childList: true, subtree: true });

  const Worker = window.Worker;
  // Called as `new Worker(address)` by the theme, which starts no other worker than that of the search.
  window.Worker = function ToldWorker(address) {
    const worker = new Worker(address);
    worker.addEventListener("message", tell);
    return worker;
  };
})();
