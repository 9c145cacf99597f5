// Places, and how many pieces there are of each. A place is a power of ten: 0 is units, 1 tens, 2 hundreds, and so on.
"use strict";
{
  /**
   * How many of each place, units first: [0, 3, 2, 5] is 5 thousands, 2 hundreds, 3 tens. A mat is the same for those
   * who share: how many stand for 1, for 10, for 100; its value is the divisor. Never changed, always copied.
   * @typedef {readonly number[]} Counts
   */

  const UNITS = 0;
  const TENS = 1;
  const HUNDREDS = 2;
  const THOUSANDS = 3;

  const NAMES = ["units", "tens", "hundreds", "thousands", "ten-thousands", "hundred-thousands", "millions"];

  /** @type {(place: number) => string} the name of a place: "units" for 0 up to "millions" for 6, then "10^7" */
  const placeName = (place) => NAMES[place] ?? `10^${place}`;

  /** @type {(number: number) => Counts} the digits of a whole number >= 0; zero has one place, the units */
  const digitsOf = (number) => [...String(number)].reverse().map(Number);

  /** @type {(counts: Counts) => number} what the pieces are worth together */
  const valueOf = (counts) => counts.reduceRight((worth, count) => 10 * worth + count, 0);

  /** @type {(numbers: readonly number[]) => number} for counts: how many pieces there are, whatever their place */
  const sum = (numbers) => numbers.reduce((total, number) => total + number, 0);

  /** @type {(counts: Counts) => number[]} the places of which there is at least one piece, largest first */
  const placesHeld = (counts) => downFrom(counts.length).filter((place) => counts[place]);

  /** @type {(counts: Counts, place: number) => number} how many there are of a place; 0 beyond the places counted */
  const at = (counts, place) => counts[place] ?? 0;

  /** @type {(counts: Counts, place: number, pieces: number) => Counts} a copy with `pieces` more, or fewer */
  const plus = (counts, place, pieces) => counts.map((count, each) => (each === place ? count + pieces : count));

  /** @type {(counts: Counts, other: Counts) => Counts} one minus another of the same length, place by place */
  const less = (counts, other) => counts.map((count, place) => count - other[place]);

  /** @type {(counts: Counts, size: number) => Counts} a copy of `size` places: cut off, or with zeros added */
  const withPlaces = (counts, size) => Array.from({ length: size }, (_, place) => at(counts, place));

  /** @type {(counts: Counts, width: number) => Counts} a copy of the same length, every piece `width` places larger */
  const raised = (counts, width) => [...Array(width).fill(0), ...counts].slice(0, counts.length);

  /** @type {(counts: Counts) => Object<string, number>} every place by its name, largest first */
  const named = (counts) =>
    Object.fromEntries(downFrom(counts.length).map((place) => [placeName(place), counts[place]]));

  /** @type {(many: number) => number[]} so many whole numbers down to 0 */
  const downFrom = (many) => Array.from({ length: many }, (_, index) => many - 1 - index);

  /** @type {(dividend: number, divisor: number) => number} how often it goes, in whole numbers */
  const quotientOf = (dividend, divisor) => (dividend - (dividend % divisor)) / divisor;

  /**
   * For sorting: lists of numbers by the first number that differs; where none does, the shorter comes first.
   * @type {(one: readonly number[], other: readonly number[]) => number}
   */
  const compare = (one, other) => {
    const index = one.findIndex((number, each) => number !== other[each]);
    return index < 0 || index >= other.length ? one.length - other.length : one[index] - other[index];
  };

  sharing.places = {
    UNITS,
    TENS,
    HUNDREDS,
    THOUSANDS,
    placeName,
    digitsOf,
    valueOf,
    sum,
    placesHeld,
    at,
    plus,
    less,
    withPlaces,
    raised,
    named,
    downFrom,
    quotientOf,
    compare,
  };
}
