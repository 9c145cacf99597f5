// What was worked out, on paper: as a sheet with the whole lesson, or as a card. The address on it opens the same again.
"use strict";
{
  const { write } = sharing.address;
  const { byId, say } = sharing.elements;

  /** @type {(asked: Asked) => void} */
  const show = (asked) => {
    const page = location.pathname.split("/").pop();
    byId("answer-address").textContent = say("today.address", { address: `${page}${write(asked)}` });
  };

  /** Follow the two buttons; what is printed in another way is a sheet. */
  const watch = () => {
    const { classList } = document.documentElement;
    window.addEventListener("beforeprint", sharing.todaysLesson.finish);
    byId("print-sheet").addEventListener("click", () => window.print());
    byId("print-card").addEventListener("click", () => {
      classList.add("prints-a-card");
      window.print();
    });
    window.addEventListener("afterprint", () => classList.remove("prints-a-card"));
  };

  sharing.printing = { show, watch };
}
