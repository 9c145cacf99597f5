// Elements made by scripts; what is written into them is text, never markup.
"use strict";
{
  const { say, written: number } = sharing.phrases;

  /**
   * @param {string} tag with classes after dots: "p.fault"
   * @param {...(Object<string, string | number> | Node | string)} content its attributes first, where it has any
   * @returns {HTMLElement}
   */
  const element = (tag, ...content) => {
    const attributes = content[0]?.constructor === Object ? content.shift() : {};
    const [name, ...classes] = tag.split(".");
    const made = document.createElement(name);
    if (classes.length) made.className = classes.join(" ");
    for (const [attribute, value] of Object.entries(attributes)) made.setAttribute(attribute, String(value));
    made.append(...content);
    return made;
  };

  /** @type {(id: string) => HTMLElement} an element of the page */
  const byId = (id) => document.getElementById(id);

  /** @type {(id: string, text: string) => void} its text; the same text is not written again, so not read out again */
  const setText = (id, text) => {
    const made = byId(id);
    if (made.textContent !== text) made.textContent = text;
  };

  /**
   * Mark the wrong ones among some fields, and say below them what is wrong. Returns whether one is wrong.
   * @type {(id: string, fault: string, fields: HTMLInputElement[], isWrong: (field: HTMLInputElement) => boolean) =>
   *   boolean}
   */
  const tellFault = (id, fault, fields, isWrong) => {
    for (const field of fields) field.setAttribute("aria-invalid", String(isWrong(field)));
    const areWrong = fields.some(isWrong);
    setText(`${id}-fault`, areWrong ? fault : "");
    return areWrong;
  };

  /** @type {(count: number) => string} what has been gained or given, with its sign */
  const signed = (count) => (count < 0 ? "\u2212" : count > 0 ? "+" : "") + number(Math.abs(count));

  /** @type {(target: EventTarget, happens: string, act: (event: Event) => void) => void} */
  const on = (target, happens, act) => target.addEventListener(happens, act);

  /**
   * Act when the page is gone back to as it was left: after WebKit has emptied its fields, which it does then.
   * @type {(act: () => void) => void}
   */
  const onReturn = (act) => on(window, "pageshow", ({ persisted }) => persisted && setTimeout(act));

  /** Milliseconds in which somebody may still write another digit. */
  const PAUSE = 1_000;

  /**
   * Act once a number is complete: after a pause, or as soon as its field is left. Else the first digits would be
   * answered, and the answer read out. A field that is gone or hidden by then is passed over, because browsers send
   * `change` also while a field is being removed.
   * @type {(field: HTMLElement, act: () => void) => void}
   */
  const onceWritten = (field, act) => {
    let waiting = 0;
    for (const [happens, pause] of Object.entries({ input: PAUSE, change: 0 })) {
      on(field, happens, () => {
        clearTimeout(waiting);
        waiting = setTimeout(() => field.offsetParent && act(), pause);
      });
    }
  };

  sharing.elements = { element, byId, setText, tellFault, say, number, signed, on, onReturn, onceWritten };
}
