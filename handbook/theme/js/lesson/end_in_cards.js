// The finished layout in cards, as generator/figures/end_in_cards.py draws it for a lesson's page: the number, how many
// shared it, one share, and what is left over.
"use strict";
{
  const { UNITS, placeName, sum } = sharing.places;
  const { pieces } = sharing.numberWords;
  const { element, say } = sharing.elements;

  /** @type {(division: Division) => HTMLElement} */
  const laidInCards = (division) => {
    const { dividend, divisor, quotient } = division;
    const left = division.end.middle;
    return element(
      "div.in-cards",
      { "aria-hidden": "true" },
      told(say("figure.the-number"), cards(dividend)),
      told(say("figure.shared-by"), element("span.sharers", divisor), ...who(division)),
      told(whose(division), quotient ? cards(quotient) : say("figure.no-share")),
      ...(sum(left) ? [told(say("figure.left-over-in-the-end"), pieces(left))] : []),
    );
  };

  const told = (title, ...what) => element("div", element("b", title), ...what);

  const whose = ({ ribbons, mat }) => {
    if (!ribbons) return say("figure.each-has-in-the-end");
    return mat[UNITS] ? say("figure.one-for-one-has") : say("figure.the-answer");
  };

  const who = ({ ribbons, widths, mat, divisor }) =>
    ribbons
      ? widths.map((width) => line(say("figure.children-stand-for", { count: mat[width], number: 10 ** width })))
      : [line(say("figure.sharers", { count: divisor }))];

  const line = (text) => element("span", text);

  /** The cards of a number as they lie on top of one another: a zero is that of the card beneath. */
  const cards = (number) => {
    const digits = String(number);
    const shown = [...digits.matchAll(/.0*/g)].map(({ 0: card, index }) =>
      element(`span.${placeName(digits.length - 1 - index)}`, card),
    );
    return element("span.number-card", ...shown);
  };

  sharing.lessonCards = { laidInCards };
}
