// The lesson under today's number. The answer does not wait for what takes longest: slips and the table come after it.
"use strict";
{
  const { body } = sharing.lessonBody;
  const { slips } = sharing.lessonSlips;
  const { everyMovement } = sharing.lessonMovements;
  const { screens, toldPlaces } = sharing.lessonWords;
  const { writeAll } = sharing.address;
  const { movementByMovement, todaysShelf } = sharing;
  const { element, byId, say } = sharing.elements;

  const lesson = byId("todays-lesson");
  const [head, foot] = document.querySelectorAll(".presenting-head, .presenting-foot");

  let waiting = 0;
  let later = [].values();

  /** What is still to come, a piece at each step. */
  function* rest(division) {
    yield* slips(division, todaysShelf.shelf(), lesson);
    lesson.append(everyMovement(division));
  }

  /**
   * A link to each screen, as on a lesson's page; presented first is the place of the movement that is shown.
   * @type {(asked: Asked, places: ToldPlace[]) => void}
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

  /** Between two pieces the page can answer. */
  const goOn = () => {
    if (later.next().done) finish();
    else waiting = setTimeout(goOn);
  };

  /** @type {(asked: Asked, division: Division) => void} */
  const show = (asked, division) => {
    const places = toldPlaces(division);
    lesson.classList.remove("whole");
    lesson.replaceChildren(head, ...body(division, places), foot);
    const offer = () => offerToPresent(asked, places);
    offer();
    byId("present-it").onclick = offer; // once more, with what has been noted in the address since
    showRest(division);
  };

  /**
   * What takes longest, again where it is there: today's shelf decides on slips.
   * @type {(division: Division) => void}
   */
  const showRest = (division) => {
    for (const part of lesson.querySelectorAll(".not-right, #every-movement")) part.remove();
    clearTimeout(waiting);
    later = rest(division);
    waiting = setTimeout(goOn);
  };

  /** Wait no longer: the whole lesson is wanted now, such as on paper, or because something below it is led to. */
  const finish = () => {
    lesson.classList.add("whole");
    return [...later];
  };

  sharing.todaysLesson = { show, showRest, finish };
}
