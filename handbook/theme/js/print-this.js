// A sheet or card that stands alone can be printed from it. Without scripts there is no button.
"use strict";
for (const form of document.querySelectorAll("form.print-this")) {
  form.hidden = false;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    print();
  });
}
