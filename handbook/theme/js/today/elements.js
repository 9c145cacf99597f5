// Elements made by scripts; what is written into them is text, never markup.
"use strict";
((sharing) => {
  /**
   * @param {string} tag with classes after dots: "p.fault"
   * @param {Object<string, string | boolean | number | Function>} [attributes] true: without a value; a function: what a
   *   click does
   * @param {...(Node | string)} content
   * @returns {HTMLElement}
   */
  const element = (tag, attributes = {}, ...content) => {
    const [name, ...classes] = tag.split(".");
    const made = document.createElement(name);
    if (classes.length) made.className = classes.join(" ");
    for (const [attribute, value] of Object.entries(attributes)) {
      if (typeof value === "function") made.addEventListener("click", value);
      else if (value !== false) made.setAttribute(attribute, value === true ? "" : String(value));
    }
    made.append(...content);
    return made;
  };

  /** @type {(id: string) => HTMLElement} an element of the page */
  const byId = (id) => document.getElementById(id);

  /** @type {(key: string, places?: Object<string, string | number>) => string} a phrase, as the school writes numbers */
  const say = (key, places) => sharing.phrases.say(sharing.handbook.words, key, places);

  sharing.elements = { element, byId, say };
})((globalThis.sharing ??= {}));
