// What is special about a division: the words by which a guide chooses and orders lessons.
"use strict";
{
  const { UNITS, digitsOf, placesHeld, at, downFrom } = sharing.places;

  /**
   * Every list holds places, largest first.
   * exchangeFrom: places that send pieces to the bank; none where the division is static
   * exchangeIntoEmpty: places that were empty in the number and are filled from the bank
   * zerosInDividend: places of the number that are empty
   * zerosInsideQuotient, zerosAtQuotientEnd: empty places of the share; none for a share of 0
   * placesShort: levels with pieces in the middle, but not enough for one round
   * highestPlaceShort: not one piece of the number's highest place can be dealt as it is
   * nobodyGetsAny: more sharers than the whole number has units
   * @typedef {{exchangeFrom: number[], exchangeIntoEmpty: number[], zerosInDividend: number[],
   *   zerosInsideQuotient: number[], zerosAtQuotientEnd: number[], placesShort: number[], highestPlaceShort: boolean,
   *   remainder: number, nobodyGetsAny: boolean, ribbons: boolean}} Features
   */

  /** @type {(division: Division) => Features} */
  const featuresOf = (division) => {
    const { stages, start, dividend, quotient } = division;
    const exchangeFrom = downFrom(start.length).filter((place) => stages.some((stage) => stage.exchanged[place]));
    const zerosInDividend = dividend ? zeros(start) : [];
    const digits = digitsOf(quotient);
    const empty = quotient ? zeros(digits) : [];
    const lowestHeld = placesHeld(digits).pop() ?? UNITS;
    return {
      exchangeFrom,
      exchangeIntoEmpty: exchangeFrom.map((place) => place - 1).filter((place) => zerosInDividend.includes(place)),
      zerosInDividend,
      zerosInsideQuotient: empty.filter((place) => place > lowestHeld),
      zerosAtQuotientEnd: empty.filter((place) => place < lowestHeld),
      placesShort: stages.filter((each) => !each.rounds && hasPieces(each, division.mat)).map((each) => each.level),
      highestPlaceShort: dividend > 0 && stages[0].rounds === 0,
      remainder: division.remainder,
      nobodyGetsAny: quotient === 0,
      ribbons: division.ribbons,
    };
  };

  const zeros = (digits) => downFrom(digits.length).filter((place) => digits[place] === 0);

  /** Whether anything lies in the middle that somebody on the mat could be dealt at this level. */
  const hasPieces = (stage, mat) => placesHeld(mat).some((width) => at(stage.start, stage.level + width));

  sharing.features = { featuresOf };
}
