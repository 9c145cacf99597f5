// What is special about a division, as far as its name says it.
"use strict";
{
  const { UNITS, digitsOf, placesHeld, downFrom } = sharing.places;

  /**
   * Every list holds places, largest first.
   * zerosInsideQuotient, zerosAtQuotientEnd: empty places of the share; none for a share of 0
   * @typedef {{zerosInsideQuotient: number[], zerosAtQuotientEnd: number[]}} Features
   */

  /** @type {(division: Division) => Features} */
  const featuresOf = ({ quotient }) => {
    const digits = digitsOf(quotient);
    const empty = quotient ? downFrom(digits.length).filter((place) => !digits[place]) : [];
    const lowestHeld = placesHeld(digits).pop() ?? UNITS;
    return {
      zerosInsideQuotient: empty.filter((place) => place > lowestHeld),
      zerosAtQuotientEnd: empty.filter((place) => place < lowestHeld),
    };
  };

  sharing.features = { featuresOf };
}
