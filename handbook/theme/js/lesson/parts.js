// The parts of a lesson's page that its places, its cards and its check are made of: as its template has them.
"use strict";
{
  const { element, say } = sharing.elements;

  /** @type {(who: string, sentences: string[]) => HTMLElement} what one person says without a break */
  const says = (who, [first, ...others]) =>
    element(
      who === "bank_keeper" ? "blockquote.say.by-banker" : "blockquote.say",
      element("p", element("b", say("lesson.says", { role: sharing.handbook.roles[who] })), " ", first),
      ...others.map((sentence) => element("p", sentence)),
    );

  /** @type {(...told: (Node | string)[]) => HTMLElement} a line to tick off */
  const tick = (...told) =>
    element("li", element("label", element("input", { type: "checkbox" }), " ", element("span", ...told)));

  /**
   * `id` names the heading, `present-` and `id` the part, as on a lesson's page.
   * @type {(id: string, heading: string, ...content: Node[]) => HTMLElement}
   */
  const part = (id, heading, ...content) =>
    element("section.part", { id: `present-${id}` }, element("h2", { id }, heading), ...content);

  /** @type {(text: string, ...drawn: Node[]) => HTMLElement} what lies where, drawn and in words */
  const figure = (text, ...drawn) =>
    element("figure", { class: "work" }, ...drawn, element("figcaption.in-words", text));

  /** @type {() => Node} what the looks of pieces mean, as it stands below the mat that shows movements */
  const matKey = () => document.querySelector(".mat-key").cloneNode(true);

  /** @type {(id: string, kind: string, caption: string, ...rows: Node[]) => HTMLElement} a table that can scroll */
  const table = (id, kind, caption, ...rows) =>
    element(
      `div.table-scroll${kind}`,
      { role: "region", "aria-labelledby": id, tabindex: 0 },
      element("table", element("caption", { id }, caption), ...rows),
    );

  sharing.lessonParts = { says, tick, part, figure, matKey, table };
}
