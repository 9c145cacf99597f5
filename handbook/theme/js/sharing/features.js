// What is special about a division, as far as its name says it.
"use strict";
{
  const { UNITS, digitsOf, placesHeld, downFrom } = sharing.places;

  /**
   * Every list holds places, largest first.
   * exchangeFrom: places that send pieces to the bank; none where the division is static
   * zerosInsideQuotient, zerosAtQuotientEnd: empty places of the share; none for a share of 0
   * @typedef {{exchangeFrom: number[], zerosInsideQuotient: number[], zerosAtQuotientEnd: number[]}} Features
   */

  /** @type {(division: Division) => Features} */
  const featuresOf = ({ stages, start, quotient }) => {
    const digits = digitsOf(quotient);
    const empty = quotient ? downFrom(digits.length).filter((place) => !digits[place]) : [];
    const lowestHeld = placesHeld(digits).pop() ?? UNITS;
    return {
      exchangeFrom: downFrom(start.length).filter((place) => stages.some((stage) => stage.exchanged[place])),
      zerosInsideQuotient: empty.filter((place) => place > lowestHeld),
      zerosAtQuotientEnd: empty.filter((place) => place < lowestHeld),
    };
  };

  sharing.features = { featuresOf };
}
