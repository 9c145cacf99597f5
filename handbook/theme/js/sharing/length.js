// How long a lesson takes, from setting out to putting away, by how long things take in a school: planning values.
"use strict";
{
  const { sum, quotientOf } = sharing.places;
  const { cards, needs } = sharing.shelf;
  const { reckon } = sharing.choosingNumbers;

  const ROUNDED_UP_TO = 5; // minutes

  /**
   * How long things take, by the names that school.toml uses: seconds for one piece moved, what is said at one place,
   * one walk to the bank and back and one card fetched; minutes for setting out, for the check and for putting away.
   * @typedef {{seconds_per_handling: number, seconds_of_words: number, seconds_per_walk: number,
   *   seconds_per_card: number, minutes_to_set_out: number, minutes_to_check: number,
   *   minutes_to_put_away: number}} Pace
   */

  /**
   * Minutes of a whole lesson, rounded up to the next five, and of handling pieces, which is a part of it. Every
   * exchange is a walk; large cards and every child's small cards are fetched.
   * @type {(division: Division, pace: Pace) => {lesson: number, handling: number}}
   */
  const lessonLength = (division, pace) => {
    const { largeCards, smallCards } = needs(division);
    const fetched = largeCards.length + sum(smallCards.map((child) => child.sharers * child.cards.length));
    return lengthOf(division.handlings, division.stages.length, division.exchanges, fetched, pace);
  };

  /**
   * The same for a plain sharing, by arithmetic: no movement is worked out.
   * @type {(dividend: number, divisor: number, pace: Pace, lookFirst: boolean) => {lesson: number, handling: number}}
   */
  const reckonedLength = (dividend, divisor, pace, lookFirst) => {
    const { digits, left, exchanges, handlings } = reckon(dividend, divisor);
    const fetched = cards(dividend).length + divisor * cards(quotientOf(dividend, divisor)).length;
    // Who looks first gives out no piece of a round that is taken back.
    const moved = lookFirst ? handlings - 2 * sum(left) : handlings;
    return lengthOf(moved, digits.length, exchanges, fetched, pace);
  };

  const lengthOf = (moved, places, walks, fetched, pace) => {
    const handling = moved * pace.seconds_per_handling;
    const seconds =
      handling +
      places * pace.seconds_of_words +
      walks * pace.seconds_per_walk +
      fetched * pace.seconds_per_card;
    const minutes = seconds / 60 + pace.minutes_to_set_out + pace.minutes_to_check + pace.minutes_to_put_away;
    return { lesson: ROUNDED_UP_TO * Math.ceil(minutes / ROUNDED_UP_TO), handling: Math.ceil(handling / 60) };
  };

  sharing.length = { lessonLength, reckonedLength };
}
