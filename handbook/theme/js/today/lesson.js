// The lesson under today's number. The answer does not wait for what takes longest: slips and the table come after it.
"use strict";
((sharing) => {
  const { body } = sharing.lessonBody;
  const { slips } = sharing.lessonSlips;
  const { everyMovement } = sharing.lessonLedger;
  const { byId } = sharing.elements;

  let waiting = 0;
  let later = [].values();

  /** What is still to come, a piece at each step. */
  function* rest(division, lesson) {
    yield* slips(division, lesson);
    lesson.append(everyMovement(division));
  }

  /** Between two pieces the page can answer. */
  const goOn = () => {
    if (!later.next().done) waiting = setTimeout(goOn);
  };

  /** @type {(division: Division) => void} */
  const show = (division) => {
    const lesson = byId("todays-lesson");
    clearTimeout(waiting);
    lesson.replaceChildren(...body(division));
    later = rest(division, lesson);
    waiting = setTimeout(goOn);
  };

  /** Wait no longer: the whole lesson is wanted now, such as on paper. */
  const finish = () => [...later];

  sharing.todaysLesson = { show, finish };
})((globalThis.sharing ??= {}));
