// What a sharing needs from the shelf, and whether a shelf has it.
"use strict";
{
  const { UNITS, placeName, digitsOf, placesHeld, downFrom } = sharing.places;

  /**
   * What one room owns, by the names that school.toml uses.
   * @typedef {{thousands: number, hundreds: number, tens: number, units: number, large_cards_to: number,
   *   small_cards_to: number, small_sets: number, trays: number, ten_ribbons: number, hundred_ribbons: number}} Shelf
   */

  /**
   * What one sharing takes. pieces: the most of each place that are out of the bank at one moment; smallCards: what
   * each of some children fetches, those who stand for the same number; ribbons: by place.
   * @typedef {{pieces: Counts, largeCards: number[],
   *   smallCards: {sharers: number, stands_for: number, cards: number[]}[],
   *   smallSets: number, trays: number, ribbons: Counts}} Needs
   */

  /**
   * One thing of which the shelf has too little: a place, or the name that it has in school.toml ("larger_ribbons" are
   * those that no shelf has). For cards: the highest card wanted and the highest there is.
   * @typedef {{what: string, needed: number, owned: number}} Shortage
   */

  const RIBBONS = ["", "ten_ribbons", "hundred_ribbons", "thousand_ribbons"];

  /** @type {(number: number) => number[]} the cards that show a number, largest first; an empty place has none */
  const cards = (number) => {
    const digits = digitsOf(number);
    return placesHeld(digits).map((place) => digits[place] * 10 ** place);
  };

  /** @type {(division: Division) => Needs} from laying out the number to the cards of every child */
  const needs = (division) => ({
    pieces: division.piecesNeeded,
    largeCards: cards(division.dividend),
    smallCards: division.widths.map((width) => ({
      sharers: division.mat[width],
      stands_for: 10 ** width,
      cards: cards(division.quotient * 10 ** width),
    })),
    smallSets: division.quotient ? division.sharers : 0,
    trays: division.sharers,
    ribbons: division.mat.map((sharers, width) => (width === UNITS ? 0 : sharers)),
  });

  /**
   * How many of what, by the names of a shelf: pieces first, largest first.
   * @type {(needs: Needs) => [string, number][]}
   */
  const wanted = (needs) => {
    const ribbonName = (width) => RIBBONS[width] ?? "larger_ribbons";
    return [
      ...downFrom(needs.pieces.length).map((place) => [placeName(place), needs.pieces[place]]),
      ["large_cards_to", Math.max(0, ...needs.largeCards)],
      ["small_cards_to", Math.max(0, ...needs.smallCards.flatMap((child) => child.cards))],
      ["small_sets", needs.smallSets],
      ["trays", needs.trays],
      ...placesHeld(needs.ribbons).map((width) => [ribbonName(width), needs.ribbons[width]]),
    ];
  };

  /** @type {(needs: Needs, shelf: Shelf) => Shortage[]} in the same order; empty if it has it all */
  const shortages = (needs, shelf) =>
    wanted(needs)
      .map(([what, needed]) => ({ what, needed, owned: shelf[what] ?? 0 }))
      .filter(({ needed, owned }) => needed > owned);

  /** More than any number wants: what is missing of it is written on paper, and for a tray a mat will do. */
  const SUBSTITUTES = { large_cards_to: 9_999, small_cards_to: 9_999, small_sets: 9_999, trays: 9_999 };

  /** @type {(shelf: Shelf) => Shelf} */
  const withSubstitutes = (shelf) => ({ ...shelf, ...SUBSTITUTES });

  sharing.shelf = { cards, needs, wanted, shortages, withSubstitutes };
}
