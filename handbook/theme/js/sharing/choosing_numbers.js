// Choosing numbers for plain sharing by arithmetic, without working out any movement. The pieces in hand at a place are
// its digit and ten for every piece exchanged at the next larger place. They decide how many pieces are dealt there,
// how many go to the bank, and how many the shelf must hold.
"use strict";
{
  const { UNITS, TENS, HUNDREDS, THOUSANDS, placeName, digitsOf, sum, quotientOf, compare } = sharing.places;

  /**
   * Which numbers are wanted. exchangeFrom: exactly the places that send pieces to the bank, null for any; remainder:
   * "none", "some" or "any"; zeros: "none", "dividend", "quotient" or "any"; digits: how many places the number has;
   * shelf: only numbers that it has everything for, null for any.
   * @typedef {{exchangeFrom: number[] | null, remainder: string, zeros: string, digits: number,
   *   shelf: Shelf | null}} Choice
   */

  /**
   * One plain sharing in figures. inHand: the pieces in the middle when a place's turn comes, also the most out of the
   * bank at one moment; left: the pieces that do not go round.
   * @typedef {{digits: Counts, inHand: Counts, left: Counts, exchanges: number, handlings: number}} Reckoning
   */

  /** @type {(dividend: number, divisor: number) => Reckoning} */
  const reckon = (dividend, divisor) => {
    const digits = digitsOf(dividend);
    const inHand = digits.map((_, place) => quotientOf(dividend, 10 ** place) % (10 * divisor));
    const left = inHand.map((pieces) => pieces % divisor);
    const exchanges = sum(left) - left[UNITS];
    const givenOut = sum(inHand) - sum(left);
    const handlings = sum(digits) + givenOut + 2 * sum(left) + 11 * exchanges + left[UNITS];
    return { digits, inHand, left, exchanges, handlings };
  };

  /**
   * Every number that fits the choice, ascending. Numbers are built digit by digit from the left. What happens at a
   * place depends only on the digits down to it, so a head (the digits so far, as a number) that does not fit is
   * dropped at once.
   * @type {(divisor: number, choice: Choice) => number[]}
   */
  const numbers = (divisor, { exchangeFrom, remainder, zeros, digits, shelf }) => {
    const impossible = exchangeFrom?.some((place) => place >= digits);
    if (impossible || (shelf && divisor > shelf.trays)) return [];
    let heads = [1, 2, 3, 4, 5, 6, 7, 8, 9];
    for (let place = digits - 1; place > UNITS; place -= 1) {
      if (exchangeFrom) heads = heads.filter((head) => head % divisor > 0 === exchangeFrom.includes(place));
      if (shelf) heads = onShelf(shelf, divisor, place, heads);
      heads = heads.flatMap((head) => [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].map((digit) => 10 * head + digit));
    }
    if (remainder !== "any") heads = heads.filter((number) => number % divisor > 0 === (remainder === "some"));
    if (shelf) heads = onShelf(shelf, divisor, UNITS, heads);
    return heads.filter((number) => zerosAsWanted(zeros, String(number), String(quotientOf(number, divisor))));
  };

  const zerosAsWanted = (zeros, number, share) =>
    zeros === "any" ||
    (zeros === "none" && !(number + share).includes("0")) ||
    (zeros === "dividend" && number.includes("0")) ||
    (zeros === "quotient" && share.includes("0"));

  /** The heads whose last digit, at `place`, the shelf can serve: pieces, large card and the children's cards. */
  const onShelf = (shelf, divisor, place, heads) => {
    const digit = quotientOf(shelf.large_cards_to, 10 ** place);
    const each = divisor <= shelf.small_sets ? quotientOf(shelf.small_cards_to, 10 ** place) : 0;
    const inHand = Math.min(shelf[placeName(place)], (each + 1) * divisor - 1);
    return heads.filter((head) => head % 10 <= digit && head % (10 * divisor) <= inHand);
  };

  const kind = (exchangeFrom, remainder, zeros) => ({ exchangeFrom, remainder, zeros, digits: 4, shelf: null });
  const exact = (...exchangeFrom) => kind(exchangeFrom, "none", "none");
  const MANY_PLACES = [
    [TENS, HUNDREDS],
    [TENS, THOUSANDS],
    [HUNDREDS, THOUSANDS],
    [TENS, HUNDREDS, THOUSANDS],
  ];

  /**
   * Kinds of four-digit number in teaching order; each is one or more choices that have no number in common.
   * @type {Object<string, Choice[]>}
   */
  const NUMBER_KINDS = {
    static: [kind([], "none", "any")],
    "exchange-tens": [exact(TENS)],
    "exchange-hundreds": [exact(HUNDREDS)],
    "exchange-thousands": [exact(THOUSANDS)],
    "exchange-several": MANY_PLACES.map((places) => exact(...places)),
    remainder: [kind(null, "some", "none")],
    "zero-in-number": [kind(null, "none", "dividend")],
    "zero-in-share": [kind(null, "none", "quotient")],
  };

  /**
   * The numbers in the order in which a guide would take them for a lesson, the first `most` of them. The least awkward
   * come first. Equally awkward ones take turns by their first digit; within a turn the fewest exchanges come first,
   * then the fewest handlings.
   * @type {(divisor: number, dividends: number[], most?: number) => number[]}
   */
  const bestFirst = (divisor, dividends, most = Infinity) => {
    const alike = new Map();
    for (const number of dividends) {
      const awkward = awkwardness(divisor, number);
      if (!alike.has(awkward)) alike.set(awkward, []);
      alike.get(awkward).push(number);
    }
    const best = [];
    for (const awkward of [...alike.keys()].sort((one, other) => one - other)) {
      if (best.length >= most) break;
      best.push(...inTurn(divisor, alike.get(awkward)));
    }
    return best.slice(0, most);
  };

  /** Equally awkward numbers in turns: in each turn one of every first digit, the least work first. */
  const inTurn = (divisor, dividends) => {
    const turns = {};
    const byWork = dividends.map((number) => {
      const { exchanges, handlings } = reckon(number, divisor);
      return [exchanges, handlings, number];
    });
    const ordered = byWork.sort(compare).map((work) => {
      const first = String(work[2])[0];
      turns[first] = (turns[first] ?? 0) + 1;
      return [turns[first], ...work];
    });
    return ordered.sort(compare).map((work) => work[3]);
  };

  /**
   * Points against a number. Digits should differ; empty places distract, and so does something left over; beginning at
   * the bank surprises; and with a share of one or none there is next to nothing to deal.
   */
  const awkwardness = (divisor, dividend) => {
    const each = quotientOf(dividend, divisor);
    const digits = [String(dividend), String(each)];
    const repeats = sum(digits.map((number) => number.length - new Set(number).size));
    const zeros = sum(digits.map((number) => number.split("0").length - 1));
    const startsAtBank = Number(digits[0][0]) < divisor;
    return repeats + 2 * zeros + 2 * (dividend % divisor > 0) + 3 * startsAtBank + 10 * (each < 2);
  };

  sharing.choosingNumbers = { reckon, numbers, bestFirst, zerosAsWanted, NUMBER_KINDS };
}
