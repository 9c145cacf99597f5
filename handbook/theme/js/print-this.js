// A sheet or card that stands alone can be printed from it. Without scripts there is no button.
"use strict";
{
  /** Mark the one that the address names: on paper some browsers no longer know it. */
  const markOne = () => {
    for (const all of document.querySelectorAll(".plans, .cards")) {
      const one = [...all.children].find(({ id }) => `#${id}` === location.hash);
      all.classList.toggle("has-one-alone", Boolean(one));
      for (const each of all.children) each.classList.toggle("stands-alone", each === one);
    }
  };

  addEventListener("hashchange", markOne);
  markOne();
  for (const form of document.querySelectorAll("form.print-this")) {
    form.hidden = false;
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      print();
    });
  }
}
