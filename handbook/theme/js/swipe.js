// A finger that is drawn across an element, to the left to go on and to the right to go back; not one that moves a
// wide table or a row of links, or a page that has been enlarged with two fingers.
"use strict";
globalThis.sharing ??= {};
{
  const FAR = 60; // CSS pixels that a finger travels at least

  /** @type {(element: EventTarget, turn: (isOn: boolean) => void) => void} */
  sharing.watchSwipes = (element, turn) => {
    let touched = null;
    const begin = ({ target, touches }) => {
      const wide = target.closest(".table-scroll, nav");
      const isMoving = visualViewport.scale > 1 || wide?.scrollWidth > wide?.clientWidth;
      touched = touches.length > 1 || isMoving ? null : touches[0];
    };
    element.addEventListener("touchstart", begin, { passive: true });
    element.addEventListener("touchend", ({ changedTouches: [left] }) => {
      if (!touched) return;
      const [right, down] = [left.clientX - touched.clientX, left.clientY - touched.clientY];
      touched = null;
      if (Math.abs(right) > FAR && Math.abs(right) > 2 * Math.abs(down)) turn(right < 0);
    });
  };
}
