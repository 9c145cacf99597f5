// Trays, cards and the shelf in words.
"use strict";
((sharing) => {
  const { UNITS, HUNDREDS, placeName, placesHeld, sum } = sharing.places;
  const { cards } = sharing.shelf;
  const { say, written } = sharing.phrases;
  const { pieces, inARow, inClauses, listing } = sharing.numberWords;

  /** @type {(words: Phrases, values: number[]) => string} the cards of a number as one reads them: "5,000 and 30" */
  const cardValues = (words, values) => listing(words, values.map((value) => written(words.grouping, value)));

  /** @type {(words: Phrases, fetched: Object[], division: Division) => string} what each sort of child fetches */
  const smallCards = (words, fetched, { ribbons }) =>
    inClauses(
      words,
      fetched.map((child) =>
        say(words, ribbons ? "small-cards.each-with-ribbons" : "small-cards.each", {
          cards: cardValues(words, child.cards),
          count: child.sharers,
          stands_for: child.stands_for,
        }),
      ),
    );

  /** @type {(words: Phrases, division: Division) => string} whose ribbon says what, and who wears none */
  const ribbonsWorn = (words, { mat }) => {
    const count = mat[UNITS];
    const widths = placesHeld(mat).filter((width) => width > UNITS);
    const who = widths.map((width) => say(words, "ribbons.stand-for", { count: mat[width], stands_for: 10 ** width }));
    const colours = listing(words, [...widths].reverse().map((width) => colour(words, width)));
    const worn = say(words, "ribbons.worn", { colours, who: inARow(words, who) });
    const without = say(words, count ? "ribbons.without" : "ribbons.nobody-without", { count });
    return `${worn} ${without} ${say(words, "ribbons.how-worn")}`;
  };

  const colour = (words, width) =>
    say(words, `ribbons.colour.${width > HUNDREDS ? "larger" : placeName(width)}`, { stands_for: 10 ** width });

  /** @type {(division: Division) => Counts} what the bank gives besides the number itself */
  const fromBank = ({ piecesNeeded, start }) => piecesNeeded.map((most, place) => most - start[place]);

  /** @type {(words: Phrases, division: Division) => string} what is set out, for those who do not see the figure */
  const layoutAlternative = (words, division) => {
    const { mat, sharers, ribbons, start, dividend, divisor } = division;
    const traysFor = placesHeld(mat).map((width) =>
      say(words, "alternative.empty-tray-for", { sharers: mat[width], stands_for: 10 ** width }),
    );
    const ready = fromBank(division);
    return say(words, sum(ready) ? "alternative.layout-and-bank" : "alternative.layout", {
      ready: pieces(words, ready),
      pieces: pieces(words, start),
      cards: cardValues(words, cards(dividend)),
      divisor,
      trays: say(words, ribbons ? "alternative.empty-trays-with-ribbons" : "alternative.empty-trays", {
        count: sharers,
        who: inARow(words, traysFor),
      }),
    });
  };

  /** @type {(words: Phrases, division: Division) => string} the finished cards, for those who do not see the figure */
  const cardsAlternative = (words, { dividend, divisor, quotient, remainder, end }) =>
    say(words, remainder ? "alternative.cards-and-rest" : "alternative.cards", {
      dividend,
      divisor,
      quotient,
      pieces: pieces(words, end.middle),
    });

  /** @type {(words: Phrases, division: Division) => string} how the shares make the number again */
  const product = (words, { quotient, divisor, remainder, dividend }) =>
    say(words, remainder ? "glance.product-and-rest" : "glance.product", { quotient, divisor, remainder, dividend });

  /** @type {(words: Phrases, seen: Observation, ribbons: boolean) => string} "1,307 on each of 4 trays" */
  const whatIsSeen = (words, { trays, left }, ribbons) => {
    const some = ribbons ? "observed.some-with-ribbons" : "observed.some";
    const key = trays.length === 1 ? "observed.all" : some;
    const parts = trays.map(({ value, sharers, stands_for }) => say(words, key, { value, count: sharers, stands_for }));
    if (left !== null) parts.push(say(words, left ? "observed.left-over" : "observed.nothing-left-over", { value: left }));
    return inARow(words, parts);
  };

  /** @type {(words: Phrases, short: Shortage) => string} "40 units are needed, we have 30" */
  const shortage = (words, { what, needed, owned }) =>
    say(words, what.endsWith("_cards_to") ? "shortage.cards" : "shortage.pieces", {
      thing: say(words, `shortage.thing.${what}`),
      needed,
      owned,
    });

  sharing.materialWords = {
    cardValues,
    smallCards,
    ribbonsWorn,
    fromBank,
    layoutAlternative,
    cardsAlternative,
    product,
    whatIsSeen,
    shortage,
  };
})((globalThis.sharing ??= {}));
