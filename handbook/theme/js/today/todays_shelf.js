// The shelf that answers are checked against: the school's own, or what is here today, kept in this browser.
"use strict";
((sharing) => {
  const { workOut } = sharing.division;
  const { needs, shortages } = sharing.shelf;
  const { lessonTitle } = sharing.titles;
  const { wholeNumber } = sharing.address;
  const { element, byId, say } = sharing.elements;

  const KEPT_AS = "sharing-handbook-shelf";
  const MOST = 10_000;
  const ownShelf = sharing.handbook.shelf;

  /** @type {() => Shelf} what is here today */
  const shelf = () => ({ ...ownShelf, ...kept() });

  /** What was entered and is kept; nothing where the browser keeps nothing. */
  const kept = () => {
    try {
      const entries = Object.entries(JSON.parse(localStorage.getItem(KEPT_AS)) ?? {});
      return Object.fromEntries(entries.filter(([key, count]) => key in ownShelf && Number.isInteger(count)));
    } catch {
      return {};
    }
  };

  const keep = (entered) => {
    try {
      if (entered) localStorage.setItem(KEPT_AS, JSON.stringify(entered));
      else localStorage.removeItem(KEPT_AS);
    } catch {
      // A browser that keeps nothing still answers for what the page shows now.
    }
  };

  /** @type {(changed: () => void) => void} */
  const watch = (changed) => {
    const fields = Object.keys(ownShelf).map((key) => byId(`shelf-${key}`));
    const showAll = () => {
      const now = shelf();
      for (const field of fields) field.value = String(now[field.name]);
      tellState();
    };
    byId("shelf-form").addEventListener("submit", (event) => event.preventDefault());
    byId("shelf-form").addEventListener("input", ({ target }) => {
      const count = wholeNumber(target.value);
      const isRight = count !== null && count <= MOST;
      target.setAttribute("aria-invalid", String(!isRight));
      byId("shelf-fault").textContent = isRight ? "" : say("today.fault.shelf", { most: MOST });
      if (!isRight) return;
      keep({ ...kept(), [target.name]: count });
      tellState();
      changed();
    });
    byId("shelf-own").addEventListener("click", () => {
      keep(null);
      showAll();
      changed();
    });
    showAll();
  };

  /** Whether the shelf is the school's, and which lessons of the handbook can be given with it. */
  const tellState = () => {
    const now = shelf();
    const isOwn = Object.keys(ownShelf).every((key) => now[key] === ownShelf[key]);
    byId("shelf-state").textContent = say(isOwn ? "today.shelf.own" : "today.shelf.entered");
    byId("shelf-own").hidden = isOwn;
    const told = sharing.handbook.lessons.map(({ page, dividend, divisor, ribbons }) => {
      const division = workOut(dividend, divisor, { ribbons });
      return { page, division, short: shortages(needs(division), now) };
    });
    const possible = told.filter(({ short }) => !short.length);
    byId("shelf-lessons-state").textContent = say("today.shelf.lessons", { count: possible.length, all: told.length });
    byId("shelf-lessons").replaceChildren(...told.map(lessonLine));
  };

  const lessonLine = ({ page, division, short }) => {
    const things = short.map(({ what }) => say(`shortage.thing.${what}`)).join(say("list.comma"));
    const state = say(short.length ? "shortage.short-of" : "shortage.has-it", { things });
    const title = lessonTitle(sharing.handbook.words, division);
    return element(short.length ? "li.short" : "li", {}, element("a", { href: page }, title), ` ${state}`);
  };

  sharing.todaysShelf = { shelf, watch };
})((globalThis.sharing ??= {}));
