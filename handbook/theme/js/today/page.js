// "Today's number": the address says what is asked, and everything on the page follows from it.
"use strict";
(() => {
  const { workOut } = sharing.division;
  const { readAsked, askedOf, readSeen, readAfter, readMovement, write, writeAll, part } = sharing.address;
  const { shelf } = sharing.todaysShelf;
  const { byId, setText, on, onReturn } = sharing.elements;
  const page = byId("todays-number");
  if (!page) return;

  /** Milliseconds in which somebody may still be typing. */
  const A_MOMENT = 1_500;

  /** What is asked and its division, once there is an answer. */
  let shown = null;
  let waiting = 0;
  let hearing = 0;

  /** Mark the answer as out of date while a field has a fault: it can then be neither presented nor printed. */
  const markOld = (isOld) => {
    clearTimeout(waiting);
    byId("answer").classList.toggle("old", isOld);
    byId("present-it").parentElement.inert = isOld;
  };

  /** Do not read out an answer that no longer belongs to the fields. */
  const hush = () => {
    clearTimeout(hearing);
    setText("answer-heard", "");
  };

  /** Have the answer read out once nothing more has been typed for a moment. */
  const hear = () => {
    clearTimeout(hearing);
    hearing = setTimeout(() => {
      const [name, share, ofShelf] = ["answer-name", "answer-each", "shelf-verdict"].map((id) => byId(id).textContent);
      setText("answer-heard", `${name}: ${share} ${ofShelf}`);
    }, A_MOMENT);
  };

  /** Besides the answer, have only those changes read out that happen in the part of the page being used. */
  const hearHere = ({ target }) => {
    for (const told of page.querySelectorAll("[aria-live]")) {
      told.setAttribute("aria-live", told.closest("section").contains(target) ? "polite" : "off");
    }
  };

  /** Answer a division; the address may also say what is seen on the trays and how many movements are shown. */
  const answer = (asked) => {
    const { number, children, ribbons } = asked;
    const division = workOut(number, children, { ribbons, lookFirst: sharing.handbook.look_first });
    shown = { asked, division };
    markOld(false);
    byId("answer").hidden = false;
    sharing.answer.show(asked, division, shelf());
    hear();
    sharing.notRight.show(asked, division);
    sharing.movementByMovement.show(asked, division);
    sharing.printing.show(asked);
    sharing.todaysLesson.show(asked, division);
    findAgain();
  };

  const findAgain = sharing.finding.watch(sharing.fields.sharers, shelf);

  const isShown = (asked) => shown && write(shown.asked) === write(asked);

  /** Rewrite the address in the form of this page's own links, because screens are found by comparing the two. */
  const tidy = (asked) => {
    const after = readAfter() === null ? "" : `&after=${readAfter()}`;
    const address = writeAll(asked) + after + (part() && `&${part()}`);
    if (address === location.hash) return;
    sharing.writeAddress(address);
    sharing.presenting.show();
  };

  /** Answer what the address asks. If it has a number alone, or a group alone, the fields give the other. */
  const follow = () => {
    const there = readAsked();
    let asked = askedOf(there);
    if (asked && isShown(asked) && !byId("answer").classList.contains("old")) {
      if (readSeen() || readAfter()) sharing.notRight.show(asked, shown.division);
      tidy(asked);
      return;
    }
    const { number, children } = there.texts;
    if (number === null && children === null) return;
    sharing.fields.show(there);
    if (shown && (number === null || children === null)) asked = sharing.fields.asked();
    if (asked) {
      answer(asked);
      tidy(asked);
    } else if (shown) {
      hush();
      markOld(true);
    }
  };

  sharing.fields.watch((asked, isTyping) => {
    clearTimeout(waiting);
    if (!asked) hush();
    if (asked || !isTyping) markOld(!asked);
    else waiting = setTimeout(markOld, A_MOMENT, true);
    if (!asked || isShown(asked)) {
      if (asked) {
        tidy(asked);
        hear();
      }
      findAgain();
      return;
    }
    if (isTyping) sharing.writeAddress(write(asked));
    else location.hash = write(asked);
    answer(asked);
  });
  for (const happens of ["focusin", "click"]) document.addEventListener(happens, hearHere, true);
  sharing.printing.watch();
  sharing.todaysShelf.watch(() => {
    if (shown) {
      sharing.answer.showShelf(shown.asked, shown.division, shelf());
      hear();
      sharing.todaysLesson.showRest(shown.division);
    }
    findAgain();
  });
  on(window, "hashchange", () => {
    const before = shown;
    follow();
    if (shown === before) return;
    const name = byId("answer-name");
    name.scrollIntoView();
    name.focus({ preventScroll: true });
  });
  onReturn(() => {
    if (!shown || byId("ask-number").value) return;
    markOld(true);
    follow();
  });
  on(document.querySelector(".md-skip"), "click", (event) => {
    event.preventDefault(); // following the link would lose what the address holds
    byId("todays-number-heading").focus();
  });
  on(document.querySelector(".presenting-head"), "click", () => {
    if (readAfter()) sharing.notRight.show(shown.asked, shown.division); // presenting has been left for it
  });
  for (const link of page.querySelectorAll("[data-leads-to]")) {
    on(link, "click", (event) => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault(); // likewise
      sharing.presenting.leave(byId(link.dataset.leadsTo));
    });
  }
  sharing.movementByMovement.watch(); // its mat follows an address once the answer has
  page.hidden = false;
  byId("without-scripts").hidden = true;
  follow();
  if (!shown) findAgain();
  const id = part();
  if (id || readMovement() !== null) sharing.todaysLesson.finish();
  sharing.movementByMovement.reveal();
  const ledTo = id && !id.startsWith("present-") ? byId(id) : null;
  byId("shelf-form").parentElement.open = id === "todays-shelf";
  ledTo?.scrollIntoView();
  ledTo?.focus();
})();
