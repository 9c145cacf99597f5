// Marks the part that is being read in the row of links above a lesson, visibly and for screen readers.
"use strict";
(() => {
  const row = document.querySelector("nav.parts");
  if (!row) return;

  const parts = [...row.querySelectorAll("a")].flatMap((link) => {
    const heading = document.getElementById(link.hash.slice(1));
    return heading ? [{ link, heading }] : [];
  });

  const mark = () => {
    const line = row.getBoundingClientRect().bottom + innerHeight / 4;
    const here = parts.filter(({ heading }) => heading.getBoundingClientRect().top < line).pop();
    for (const { link } of parts) {
      if (link === here?.link) link.setAttribute("aria-current", "location");
      else link.removeAttribute("aria-current");
    }
  };

  let isAsked = false;
  const ask = () => {
    if (isAsked) return;
    isAsked = true;
    requestAnimationFrame(() => {
      isAsked = false;
      mark();
    });
  };
  addEventListener("scroll", ask, { passive: true });
  addEventListener("resize", ask);
  mark();
})();
