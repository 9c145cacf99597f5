// The number and the children on the first page lead to the page that works them out. Without scripts they are not shown.
"use strict";
(() => {
  const form = document.getElementById("ask-today");
  if (!form) return;

  form.hidden = false;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const { number, children } = form.elements;
    location.href = `${form.dataset.leadsTo}#number=${number.value.replace(/\D/g, "")}&children=${children.value}`;
  });
})();
