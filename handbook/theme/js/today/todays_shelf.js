// The shelf that answers are checked against: the school's own, or what is here today, kept in this browser for this
// handbook, which other rooms of the school may have beside it, with the day on which it was written.
"use strict";
{
  const { workOut } = sharing.division;
  const { needs, shortages } = sharing.shelf;
  const { lessonTitle } = sharing.titles;
  const { thing } = sharing.materialWords;
  const { inARow } = sharing.numberWords;
  const { wholeNumber } = sharing.address;
  const { element, byId, setText, tellFault, say, on, onReturn, onceWritten } = sharing.elements;

  const KEPT_AS = `sharing-handbook-shelf ${new URL("..", document.currentScript.src).pathname}`;
  const MOST = 10_000;
  const ownShelf = sharing.handbook.shelf;

  /** Those of some counts that are possible and differ from the school's own. */
  const different = (counts) => {
    const isOther = ([key, count]) => key in ownShelf && isCount(count) && count !== ownShelf[key];
    return Object.fromEntries(Object.entries(counts).filter(isOther));
  };

  const isCount = (count) => Number.isInteger(count) && count >= 0 && count <= MOST;

  const today = () => new Date().toDateString();

  /** What was kept of an earlier visit, with its day; nothing where that cannot be read. */
  const kept = () => {
    try {
      return JSON.parse(localStorage.getItem(KEPT_AS)) ?? {};
    } catch {
      return {};
    }
  };

  let entered = {};
  let day = today();
  let isKept = true;

  /** @type {() => Shelf} what is here today */
  const shelf = () => ({ ...ownShelf, ...entered });

  const keep = (counts, written = today()) => {
    entered = different(counts);
    day = written;
    try {
      isKept = localStorage instanceof Storage; // else a memory that lasts as long as the page
      if (Object.keys(entered).length) localStorage.setItem(KEPT_AS, JSON.stringify({ ...entered, day }));
      else localStorage.removeItem(KEPT_AS);
    } catch {
      isKept = false; // the browser has no room left
    }
  };

  /** Read again what was kept, and keep what differs from the school's own shelf, which may have changed since. */
  const keepOn = () => {
    const before = kept();
    keep(before, before.day);
  };

  keepOn();

  /** Every lesson of the handbook: its page, its title, what it needs. */
  const lessons = sharing.handbook.lessons.map(({ page, dividend, divisor, ribbons }) => {
    const division = workOut(dividend, divisor, { ribbons });
    return { page, title: lessonTitle(division), needed: needs(division) };
  });

  const isWrong = ({ value }) => !isCount(wholeNumber(value));

  const tellFaults = (fields) => tellFault("shelf", say("today.fault.shelf", { most: MOST }), fields, isWrong);

  /** @type {(changed: () => void) => void} */
  const watch = (changed) => {
    const fields = Object.keys(ownShelf).map((key) => byId(`shelf-${key}`));
    const showAll = () => {
      const now = shelf();
      for (const field of fields) field.value = String(now[field.name]);
      tellFaults(fields);
      tellState();
    };
    for (const field of fields) {
      onceWritten(field, () => {
        tellFaults(fields);
        if (isWrong(field)) return;
        keep({ ...entered, [field.name]: wholeNumber(field.value) });
        tellState();
        changed();
      });
    }
    on(byId("shelf-form"), "reset", (event) => {
      event.preventDefault();
      keep({});
      showAll();
      changed();
      byId("todays-shelf").focus({ preventScroll: true }); // the button that was used is gone
    });
    const showKept = () => {
      keepOn();
      const now = shelf();
      if (fields.every(({ name, value }) => value === String(now[name]))) return;
      showAll();
      changed();
    };
    // Another tab has kept something, or, without a key, cleared everything.
    on(window, "storage", ({ key }) => (key === KEPT_AS || key === null) && showKept());
    onReturn(showKept);
    showAll();
  };

  /** Whether the shelf is the school's, and which lessons of the handbook can be given with it. */
  const tellState = () => {
    const now = shelf();
    const isOwn = !Object.keys(entered).length;
    const told = isOwn ? "own" : !isKept ? "not-kept" : day === today() ? "entered" : "of-another-day";
    setText("shelf-state", say(`today.shelf.${told}`));
    for (const id of ["shelf-own", "answer-as-entered"]) byId(id).hidden = isOwn;
    const lines = lessons.map(({ page, title, needed }) => ({ page, title, short: shortages(needed, now) }));
    const count = lines.filter(({ short }) => !short.length).length;
    setText("shelf-lessons-state", say("today.shelf.lessons", { count, all: lines.length }));
    byId("shelf-lessons").replaceChildren(...lines.map(lessonLine));
  };

  const lessonLine = ({ page, title, short }) => {
    const things = inARow(short.map(({ what }) => thing(what)));
    const state = say(short.length ? "shortage.short-of" : "shortage.has-it", { things });
    return element(short.length ? "li.short" : "li", element("a", { href: page }, title), ` ${state}`);
  };

  sharing.todaysShelf = { shelf, watch };
}
