// What a division is called, and what is special about it.
"use strict";
{
  const { placesHeld } = sharing.places;
  const { say } = sharing.phrases;
  const { smallNumber, placeWord, inARow, listing } = sharing.numberWords;
  const { featuresOf } = sharing.features;

  /** @type {(division: Division) => string} "5,230 among four", "2,684 between two", "3,432 for twelve with ribbons" */
  const divisionName = ({ dividend, divisor, ribbons }) =>
    say(ribbons ? "title.ribbons" : divisor === 2 ? "title.plain-two" : "title.plain", {
      dividend,
      divisor: smallNumber(divisor),
    });

  /** @type {(division: Division) => string} "exchange out of thousands, a zero inside the share" */
  const wayOfSharing = (division) => {
    if (!division.quotient) return say("way.too-few");
    return inARow([exchange(division), ...zeros(featuresOf(division))]);
  };

  const exchange = ({ exchanges, exchanged, remainder }) => {
    if (exchanges) return say("way.exchange", { places: listing(placesHeld(exchanged).map(placeWord)) });
    return say(remainder ? "way.no-exchange" : "way.as-it-lies");
  };

  const zeros = ({ zerosInsideQuotient, zerosAtQuotientEnd }) => {
    const counted = { inside: zerosInsideQuotient.length, "at-end": zerosAtQuotientEnd.length };
    const found = Object.entries(counted).filter(([, count]) => count);
    if (found.length > 1) return [say("way.zero-inside-and-at-end")];
    return found.map(([where, count]) =>
      say(count > 1 ? `way.zeros-${where}` : `way.zero-${where}`, { zeros: smallNumber(count) }),
    );
  };

  const leftOver = ({ quotient, remainder }) => {
    if (!remainder) return [];
    if (!quotient) return [say("title.all-left-over")];
    return [say("title.left-over", { remainder: smallNumber(remainder) })];
  };

  /** @type {(division: Division) => string} what its lesson is called: also how it goes, and what is left over */
  const lessonTitle = (division) => {
    const way = inARow([wayOfSharing(division), ...leftOver(division)]);
    return say("title.lesson", { division: divisionName(division), way });
  };

  /**
   * A lesson of the handbook; opening: its own first words, if it has any.
   * @typedef {{page: string, dividend: number, divisor: number, ribbons: boolean, opening?: string}} Lesson
   */

  /** @type {(division: Division) => Lesson | undefined} the lesson of the handbook that shares just this */
  const lessonOf = ({ dividend, divisor, ribbons }) =>
    sharing.handbook.lessons.find(
      (one) => one.dividend === dividend && one.divisor === divisor && Boolean(one.ribbons) === ribbons,
    );

  sharing.titles = { divisionName, lessonOf, lessonTitle, wayOfSharing };
}
