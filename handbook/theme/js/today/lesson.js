// The lesson under today's number. The answer does not wait for what takes longest: slips and the table come after it.
"use strict";
{
  const { body } = sharing.lessonBody;
  const { slips } = sharing.lessonSlips;
  const { everyMovement } = sharing.lessonMovements;
  const { screens, placeTexts } = sharing.lessonWords;
  const { writeAll } = sharing.address;
  const { movementByMovement, todaysShelf } = sharing;
  const { element, byId, say } = sharing.elements;

  const lesson = byId("todays-lesson");
  const [head, foot] = document.querySelectorAll(".presenting-head, .presenting-foot");

  let waiting = 0;
  let later = [].values();

  /** Add slips and the table of movements, one piece at each step. */
  function* rest(division) {
    yield* slips(division, todaysShelf.shelf(), lesson);
    lesson.append(everyMovement(division));
  }

  /**
   * A link to each screen, as on a lesson's page; presented first is the place of the movement that is shown.
   * @type {(asked: Asked, places: PlaceText[]) => void}
   */
  const offerToPresent = (asked, places) => {
    const toPresent = screens(places);
    const here = places.find(({ level }) => level === movementByMovement.level());
    const addressOf = (id) => `${writeAll(asked)}&present-${id}`;
    const links = toPresent.map(({ id, shown, name }) => {
      const href = addressOf(id);
      if (shown === name) return element("a", { href }, name);
      const kind = Number(shown) ? `a.number-card.${id.split("-")[0]}` : "a";
      return element(kind, { href, "aria-label": say("lesson.shown-and-name", { shown, name }) }, shown);
    });
    head.querySelector("nav").replaceChildren(...links);
    byId("present-it").hash = addressOf((here ? here.parts : toPresent)[0].id);
    sharing.presenting.show();
  };

  /** Add the next piece in a task of its own, so that the page reacts between two pieces. */
  const goOn = () => {
    if (later.next().done) finish();
    else waiting = setTimeout(goOn);
  };

  /** @type {(asked: Asked, division: Division) => void} */
  const show = (asked, division) => {
    const places = placeTexts(division);
    lesson.classList.remove("whole");
    lesson.replaceChildren(head, ...body(division, places), foot);
    const offer = () => offerToPresent(asked, places);
    offer();
    byId("present-it").onclick = offer; // once more, with what has been noted in the address since
    showRest(division);
  };

  /**
   * Write what takes longest, in place of what is there: slips depend on today's shelf, which may have changed.
   * @type {(division: Division) => void}
   */
  const showRest = (division) => {
    for (const part of lesson.querySelectorAll(".not-right, #every-movement")) part.remove();
    clearTimeout(waiting);
    later = rest(division);
    waiting = setTimeout(goOn);
  };

  /** Add all that is missing at once: the lesson is being printed, or an address leads to something below it. */
  const finish = () => {
    lesson.classList.add("whole");
    return [...later];
  };

  sharing.todaysLesson = { show, showRest, finish };
}
