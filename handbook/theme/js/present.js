// Presents a lesson: one part of its page fills the screen. The address ends with its id, "#present-hundreds"; on a
// page that works a division out, that stands before it: "#number=5230&children=4&present-hundreds". Nothing is
// stored. Without this script such addresses of a lesson's page lead to the parts of the plain page.
"use strict";
(() => {
  const TYPE = ["large", "smaller", "small", "smallest"];
  const UP = ["ArrowUp", "PageUp"];
  const DOWN = ["ArrowDown", "PageDown", " "];
  const DOUBLE_TAP = 300; // milliseconds

  const root = document.documentElement;
  const head = document.querySelector(".presenting-head");
  const foot = document.querySelector(".presenting-foot");
  if (!head || !foot) return;

  const nav = head.querySelector("nav");
  const close = head.querySelector(".close");
  const notRight = head.querySelector(".to-not-right");
  const notRightId = notRight?.hash.slice(1);
  const fullScreen = head.querySelector(".full-screen");
  const back = foot.querySelector(".back");
  const next = foot.querySelector(".next");
  const status = foot.querySelector("[role=status]");
  const again = document.querySelector(".present-again");
  const toTrays = document.querySelectorAll("[href$=not-right]");

  /** One link for each screen, in order. */
  const screens = () => [...nav.children];

  /** Which screen the address asks for; -1 for none. */
  const shown = () => screens().findIndex((link) => link.hash === location.hash);

  /** @type {(link: HTMLAnchorElement | Location) => HTMLElement | null} what has the id with which its address ends */
  const target = (link) => document.getElementById(link.hash.split(/[#&]/).pop());

  /** @type {(link: HTMLAnchorElement) => string} the name of a screen, which is heard after what its link shows */
  const nameOf = (link) => link.getAttribute("aria-label")?.split(", ").pop() ?? link.textContent;

  /** @type {(link: HTMLAnchorElement) => string} what a screen is called in a word: that of a place, not its card */
  const wordFor = (link) => (link.classList.contains("number-card") ? nameOf(link) : link.textContent);

  /**
   * Have links to what lies on the trays say which screen is presented, so that it is shown as it should be after that.
   * @param {string} end how an address ends there, `present-` and its id; "" for none
   */
  const sayAfter = (end) => {
    const after = end && `after=${end.split("present-")[1]}&`;
    for (const link of toTrays) {
      const hash = link.hash.replace(/(after=[^&]*&)?not-right$/, `${after}not-right`);
      if (hash !== link.hash) link.hash = hash; // to set it at all makes the whole address an absolute one
    }
  };

  /** Show the screen that the address asks for, or the plain page. */
  function show() {
    const links = screens();
    const number = shown();
    const presenting = number >= 0;
    root.classList.toggle("presenting", presenting);
    document.querySelector(".is-presented")?.classList.remove("is-presented");
    for (const link of links) link.removeAttribute("aria-current");
    again?.classList.remove("leads-back");
    sayAfter("");
    if (!presenting) {
      if (document.fullscreenElement) document.exitFullscreen();
      return;
    }
    const here = links[number];
    const asked = target(here);
    const part = asked.closest(".part");
    part.classList.add("is-presented");
    for (const one of part.querySelectorAll("[data-moment]")) {
      one.classList.toggle("is-now", asked.id === `present-${one.dataset.moment}`);
    }
    here.setAttribute("aria-current", "step");
    for (const link of links) link.classList.toggle("is-of-this-part", part.contains(target(link)));
    nav.scrollLeft = nav.querySelector(".is-of-this-part").offsetLeft - nav.clientWidth / 2; // where they take one row
    const [before, after] = [links[number - 1], links[number + 1]];
    close.hash = here.hash.replace(/present-.*/, part.id.replace("present-", ""));
    if (notRight) notRight.hash = here.hash.replace(/present-.*/, notRightId);
    sayAfter(here.hash);
    const focused = document.activeElement;
    back.hidden = !before;
    next.hidden = !after;
    if (focused === back && back.hidden) next.focus();
    if (focused === next && next.hidden) back.focus();
    if (before) back.hash = before.hash;
    if (after) {
      next.hash = after.hash;
      next.querySelector("span").textContent = wordFor(after);
    }
    status.textContent = `${number + 1} / ${links.length}: ${nameOf(here)}`;
    fit();
    scrollTo(0, 0);
    if (![head, foot].some((bar) => bar.contains(focused))) readFrom(part.querySelector("h2"));
  }

  /** Give the words the largest type with which all is seen at once. */
  function fit() {
    for (const size of TYPE) {
      root.dataset.type = size;
      if (root.scrollHeight <= root.clientHeight) return;
    }
  }

  /**
   * Go where a link leads. The address is replaced, so that going back in the browser leaves the presentation, and the
   * browser neither scrolls nor takes the focus from the link. From what is not right, going back leads to the screen
   * that it was noticed at, and so does a link there.
   * @param {HTMLAnchorElement} link
   */
  function follow(link) {
    if (link.hidden) return;
    const left = location.hash;
    sharing.writeAddress(link.hash, link === notRight ? "pushState" : "replaceState");
    show();
    if (link === notRight) {
      again.classList.add("leads-back");
      again.firstElementChild.hash = left;
      sayAfter(left);
    }
    if (link === close || link === notRight) leave(target(link));
  }

  /**
   * Give the keyboard to a part of the page, so that it is read aloud from there.
   * @param {HTMLElement} part
   */
  function readFrom(part) {
    part.tabIndex = -1;
    part.focus({ preventScroll: true });
  }

  /**
   * Back to the plain page: what was shown is in view, and has the keyboard.
   * @param {HTMLElement | null} part
   */
  function leave(part) {
    if (!part) return;
    readFrom(part);
    part.scrollIntoView();
  }

  /** The link that was just tapped: a second tap follows before the first is seen. @type {HTMLAnchorElement | null} */
  let justTapped = null;

  head.addEventListener("click", turn);
  foot.addEventListener("click", turn);
  /** @param {MouseEvent} event */
  function turn(event) {
    const link = event.target.closest("a");
    if (!link?.hash || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    if (event.pointerType === "touch" && link === justTapped) return; // a mouse is clicked twice on purpose
    justTapped = link;
    setTimeout(() => (justTapped = null), DOUBLE_TAP);
    follow(link);
  }

  document.addEventListener("keydown", (event) => {
    if (shown() < 0 || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const onControl = event.target.closest("button, input, summary"); // on a link the space bar does nothing
    const link = keyed(event.key);
    if (!link || (event.key === " " && onControl)) return;
    event.preventDefault();
    event.stopPropagation();
    if (!event.repeat) follow(link); // a key that is held scrolls to the end of a screen, and no further
  }, true);

  /**
   * Where a key leads. Keys that scroll turn the page only where nothing is left to scroll.
   * @param {string} key
   */
  function keyed(key) {
    const { scrollHeight, clientHeight, scrollTop } = root;
    if (key === "Escape") return close;
    if (key === "Home") return screens()[0];
    if (key === "End") return screens().pop();
    if (key === "ArrowLeft" || (UP.includes(key) && scrollTop < 1)) return back;
    if (key === "ArrowRight" || (DOWN.includes(key) && scrollTop + clientHeight > scrollHeight - 1)) return next;
    return null;
  }

  sharing.watchSwipes(document, (isOn) => {
    if (shown() >= 0) follow(isOn ? next : back);
  });

  fullScreen.hidden = !document.fullscreenEnabled;
  document.addEventListener("fullscreenchange", () => {
    fullScreen.setAttribute("aria-pressed", String(Boolean(document.fullscreenElement)));
  });
  fullScreen.addEventListener("click", () => {
    if (document.fullscreenElement) document.exitFullscreen();
    else root.requestFullscreen().catch(() => {}); // where the browser refuses, the lesson is presented all the same
  });

  addEventListener("hashchange", () => {
    const wasPresenting = root.classList.contains("presenting");
    show();
    if (wasPresenting && shown() < 0) leave(target(location)); // hidden when the browser sought it
  });
  addEventListener("resize", () => {
    if (shown() >= 0) fit();
  });
  show();
  sharing.presenting = { show, leave };
})();
