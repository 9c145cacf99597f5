// The lesson under today's number. The answer does not wait for what takes longest: slips and the table come after it.
"use strict";
((sharing) => {
  const { body } = sharing.lessonBody;
  const { slips } = sharing.lessonSlips;
  const { everyMovement } = sharing.lessonLedger;
  const { byId } = sharing.elements;

  let waiting = 0;

  /** @type {(division: Division) => void} */
  const show = (division) => {
    const lesson = byId("todays-lesson");
    clearTimeout(waiting);
    lesson.replaceChildren(...body(division));
    waiting = setTimeout(() => lesson.append(...slips(division), everyMovement(division)));
  };

  sharing.todaysLesson = { show };
})((globalThis.sharing ??= {}));
