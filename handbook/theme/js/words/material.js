// Trays, cards and the shelf in words.
"use strict";
{
  const { UNITS, HUNDREDS, placeName, sum } = sharing.places;
  const { cards } = sharing.shelf;
  const { say, has, written } = sharing.phrases;
  const { pieces, inARow, inClauses, listing } = sharing.numberWords;

  /** @type {(values: number[]) => string} the cards of a number as one reads them: "5,000 and 30" */
  const cardValues = (values) => listing(values.map((value) => written(value)));

  /** @type {(values: number[]) => string} the same in a sentence: "the card 7" */
  const cardsNamed = (values) => say("small-cards.named", { count: values.length, cards: cardValues(values) });

  /**
   * The cards that each sort of child fetches, and those of the answer if no child stands for one.
   * @type {(fetched: Object[], division: Division) => string}
   */
  const smallCards = (fetched, { ribbons, mat, quotient }) => {
    const each = fetched.map((child) =>
      say(ribbons ? "small-cards.each-with-ribbons" : "small-cards.each", {
        cards: cardsNamed(child.cards),
        count: child.sharers,
        stands_for: child.stands_for,
      }),
    );
    const forAnswer = () => say("small-cards.for-answer", { cards: cardsNamed(cards(quotient)) });
    const answer = ribbons && !mat[UNITS] ? [forAnswer()] : [];
    return inClauses([...each, ...answer]);
  };

  /**
   * What is set out for each; with cups where unit beads lie in the middle or, even for a moment, on a tray.
   * @type {(division: Division) => string}
   */
  const trays = (division) => say("lesson.trays", { count: division.sharers, cups: cups(division) });

  const cups = ({ mat, stages, piecesNeeded }) => {
    if (!piecesNeeded[UNITS]) return "";
    const begun = stages.at(-1).steps.some(({ action }) => action.endsWith("-round"));
    return say(begun && mat[UNITS] ? "lesson.cups" : "lesson.cup-in-the-middle");
  };

  /** @type {(division: Division) => string} whose ribbon says what, and who wears none */
  const ribbonsWorn = ({ mat, widths: all }) => {
    const count = mat[UNITS];
    const widths = all.filter((width) => width > UNITS);
    const who = widths.map((width) => say("ribbons.stand-for", { count: mat[width], stands_for: 10 ** width }));
    const colours = listing([...widths].reverse().map((width) => colour(width)));
    const worn = say("ribbons.worn", { colours, who: inARow(who) });
    const without = say(count ? "ribbons.without" : "ribbons.nobody-without", { count });
    return `${worn} ${without} ${say("ribbons.how-worn")}`;
  };

  const colour = (width) =>
    say(`ribbons.colour.${width > HUNDREDS ? "larger" : placeName(width)}`, { stands_for: 10 ** width });

  /** @type {(division: Division) => string} alternative text of the figure of what is set out */
  const layoutAlternative = (division) => {
    const { mat, widths, sharers, ribbons, start, fromBank: ready, dividend, divisor } = division;
    const traysFor = widths.map((width) =>
      say("alternative.empty-tray-for", { sharers: mat[width], stands_for: 10 ** width }),
    );
    const trays = ribbons ? "alternative.empty-trays-with-ribbons" : "alternative.empty-trays";
    return [
      say("alternative.layout", { pieces: pieces(start), cards: cardValues(cards(dividend)), divisor }),
      sum(ready) && say("lesson.bank", { pieces: pieces(ready) }),
      say(trays, { count: sharers, who: inARow(traysFor) }),
    ]
      .filter(Boolean)
      .join(" ");
  };

  /** @type {(division: Division) => string} alternative text of the figure of the finished cards */
  const cardsAlternative = (division) => {
    const { dividend, divisor, quotient } = division;
    const key = quotient ? "alternative.cards" : "alternative.no-cards";
    return `${say(key, { dividend, divisor, quotient })} ${leftOver(division)}`;
  };

  /** @type {(division: Division) => string} what is left over, as the alternative text of a figure ends */
  const leftOver = ({ end: { middle } }) =>
    say(sum(middle) ? "alternative.left-over" : "alternative.nothing-left-over", { pieces: pieces(middle) });

  /** @type {(division: Division) => string} how the shares make the number again */
  const product = ({ dividend, divisor, quotient, remainder }) =>
    say(remainder ? "glance.product-and-rest" : "glance.product", { quotient, divisor, remainder, dividend });

  /**
   * "1,307 on each of 4 trays". lying: the pieces that are not on a tray; rightly: those that are rightly left over.
   * @type {(seen: Observation, ribbons: boolean, lying?: Counts, rightly?: Counts) => string}
   */
  const whatIsSeen = ({ trays, left }, ribbons, lying, rightly) => {
    const key = trays.length === 1 ? "observed.all" : "observed.some";
    const parts = trays.map(({ value, sharers, stands_for }) =>
      say(key, { value, count: sharers, whose: whoseTray(stands_for, ribbons) }),
    );
    return inARow([...parts, ...notOnTrays(left, lying, rightly)]);
  };

  /** @type {(stands_for: number, ribbons: boolean) => string} " for 10"; "" without ribbons */
  const whoseTray = (stands_for, ribbons) => (ribbons ? say("observed.whose", { stands_for }) : "");

  /** "2 left over"; or, if a larger piece lies there that should not, what is still in the middle. */
  const notOnTrays = (value, lying, rightly) => {
    if (value === null) return [];
    const isStill = lying?.some((there, place) => place > UNITS && there > rightly[place]);
    if (isStill) return [say("observed.in-the-middle", { pieces: pieces(lying) })];
    return [say(value ? "observed.left-over" : "observed.nothing-left-over", { value })];
  };

  /** @type {(short: Shortage) => string} "units (40 needed, we have 30)" */
  const shortage = ({ what, needed, owned }) =>
    say(what.endsWith("_cards_to") ? "shortage.cards" : "shortage.pieces", { thing: thing(what), needed, owned });

  /** @type {(what: string) => string} what may be short: pieces by their place, or another thing of the shelf */
  const thing = (what) => say(has(`place.${what}`) ? `place.${what}` : `shortage.thing.${what}`);

  /** @type {(needed: Needs, shelf: Shelf) => string} what will do for a day: cards on paper, mats for trays */
  const substitutes = ({ smallCards, largeCards, smallSets, trays: onTrays }, shelf) => {
    const lacking = new Map();
    const look = (cards, highest, times) => {
      for (const card of cards.filter((value) => value > highest)) lacking.set(card, (lacking.get(card) ?? 0) + times);
    };
    for (const { cards, sharers } of smallCards) look(cards, shelf.small_cards_to, sharers);
    look(largeCards, shelf.large_cards_to, 1);
    const [sets, mats] = [smallSets - shelf.small_sets, onTrays - shelf.trays];
    return [
      ...[...lacking].map(([value, slips]) => say("shortage.on-paper", { value, count: slips })),
      ...(sets > 0 ? [say("shortage.sets-on-paper", { count: sets })] : []),
      ...(mats > 0 ? [say("shortage.mats-for-trays", { count: mats })] : []),
    ].join(" ");
  };

  sharing.materialWords = {
    cardsNamed,
    smallCards,
    ribbonsWorn,
    trays,
    layoutAlternative,
    cardsAlternative,
    product,
    whatIsSeen,
    whoseTray,
    leftOver,
    shortage,
    thing,
    substitutes,
  };
}
