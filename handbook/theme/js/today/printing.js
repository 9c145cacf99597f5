// What was worked out, on paper: as a sheet with the whole lesson, or as a card. The address on it opens the same
// again.
"use strict";
{
  const { write } = sharing.address;
  const { byId, setText, say, on } = sharing.elements;

  /** @type {(asked: Asked) => void} */
  const show = (asked) => {
    const page = location.pathname.split("/").pop();
    // The head of every sheet says which number it is for.
    const [heading, division] = ["todays-number-heading", "answer-name"].map((id) => byId(id).textContent);
    document.documentElement.dataset.title = `${heading}: ${division}`;
    setText("answer-address", say("today.address", { address: `${page}${write(asked)}` }));
  };

  /** Follow the two buttons; what is printed in another way is a sheet. */
  const watch = () => {
    const { classList } = document.documentElement;
    on(window, "beforeprint", sharing.todaysLesson.finish);
    on(byId("print-sheet"), "click", () => window.print());
    on(byId("print-card"), "click", () => {
      classList.add("prints-a-card");
      window.print();
    });
    on(window, "afterprint", () => classList.remove("prints-a-card"));
  };

  sharing.printing = { show, watch };
}
