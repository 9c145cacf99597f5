// The form that asks for a number and its children leads to the page that works them out, at the part that the form
// names. Without scripts it is not shown.
"use strict";
(() => {
  const form = document.querySelector("form.ask[data-leads-to]");
  if (!form) return;

  form.hidden = false;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const { number, children } = form.elements;
    const [page, part] = form.dataset.leadsTo.split("#");
    const asked = `number=${number.value.normalize("NFKC").replace(/\D/g, "")}&children=${children.valueAsNumber}`;
    location.href = `${page}#${asked}${part ? `&${part}` : ""}`;
  });
})();
