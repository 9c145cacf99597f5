// "Today's number": the address says what is asked, and everything on the page follows from it.
"use strict";
((sharing) => {
  const { workOut } = sharing.division;
  const { read, write, writeSeen } = sharing.address;
  const { byId } = sharing.elements;
  const page = byId("todays-number");
  if (!page) return;

  const EXAMPLE = { number: 4327, children: 6, ribbons: false };
  let shown = null;

  const answer = (asked) => {
    shown = asked;
    const division = workOut(asked.number, asked.children, { ribbons: asked.ribbons, lookFirst: sharing.handbook.look_first });
    sharing.answer.show(asked, division, sharing.todaysShelf.shelf());
    sharing.notRight.show(division, location.hash, (seen, left) => {
      history.replaceState(null, "", write(asked) + writeSeen(seen, left));
    });
    sharing.movements.show(asked, division);
    sharing.printing.show(asked);
    sharing.todaysLesson.show(division);
    byId("answer").hidden = false;
    findAgain();
  };

  const group = () => (shown && !shown.ribbons ? shown.children : EXAMPLE.children);
  const findAgain = sharing.finding.watch(group, sharing.todaysShelf.shelf);

  const isShown = (asked) => shown && write(shown) === write(asked);

  const follow = () => {
    const asked = read(location.hash);
    if (!asked || isShown(asked)) return;
    sharing.fields.show(asked);
    answer(asked);
  };

  sharing.fields.watch((asked, isTyping) => {
    if (isShown(asked)) return;
    answer(asked);
    if (isTyping) history.replaceState(null, "", write(asked));
    else location.hash = write(asked);
  });
  sharing.movements.watch();
  sharing.printing.watch();
  sharing.todaysShelf.watch(() => (shown ? answer(shown) : findAgain()));
  window.addEventListener("hashchange", follow);
  page.hidden = false;
  byId("without-scripts").hidden = true;
  follow();
  findAgain();
  sharing.movements.reveal();
})((globalThis.sharing ??= {}));
