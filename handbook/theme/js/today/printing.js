// What was worked out, on paper: as a sheet with the whole lesson, or as a card. The address on it opens the same
// again.
"use strict";
{
  const { writeAll } = sharing.address;
  const { byId, setText, say, on } = sharing.elements;

  /** @type {Asked} */
  let shown;

  /** Write the address as it is now, with what has been typed in of the trays. */
  const tellAddress = () => {
    const page = location.pathname.split("/").pop();
    setText("answer-address", say("today.address", { address: `${page}${writeAll(shown, { movement: null })}` }));
  };

  /** @type {(asked: Asked) => void} */
  const show = (asked) => {
    shown = asked;
    // The head of every sheet says which number it is for.
    const [heading, division] = ["todays-number-heading", "answer-name"].map((id) => byId(id).textContent);
    document.documentElement.dataset.title = `${heading}: ${division}`;
    tellAddress();
  };

  /** Follow the two buttons; what is printed in another way is a sheet. */
  const watch = () => {
    const { classList } = document.documentElement;
    on(window, "beforeprint", sharing.todaysLesson.finish);
    on(window, "beforeprint", () => shown && tellAddress());
    on(byId("print-sheet"), "click", () => window.print());
    on(byId("print-card"), "click", () => {
      classList.add("prints-a-card");
      window.print();
    });
    on(window, "afterprint", () => classList.remove("prints-a-card"));
  };

  sharing.printing = { show, watch };
}
