// What a division is called, and what is special about it.
"use strict";
((sharing) => {
  const { say } = sharing.phrases;
  const { smallNumber, placeWord, inARow, listing } = sharing.numberWords;
  const { featuresOf } = sharing.features;

  /** @type {(words: Phrases, division: Division) => string} "5,230 among four", "3,432 for twelve with ribbons" */
  const divisionName = (words, { dividend, divisor, ribbons }) =>
    say(words, ribbons ? "title.ribbons" : "title.plain", { dividend, divisor: smallNumber(words, divisor) });

  /** @type {(words: Phrases, division: Division) => string} how it goes and what is left over */
  const wayToTheEnd = (words, division) => inARow(words, [wayOfSharing(words, division), ...leftOver(words, division)]);

  /** @type {(words: Phrases, division: Division) => string} "exchange out of thousands, a zero inside the share" */
  const wayOfSharing = (words, division) => {
    const features = featuresOf(division);
    if (features.nobodyGetsAny) return say(words, "way.too-few");
    return inARow(words, [exchange(words, features), ...zeros(words, features)]);
  };

  const exchange = (words, { exchangeFrom, remainder }) => {
    if (!exchangeFrom.length) return say(words, remainder ? "way.no-exchange" : "way.as-it-lies");
    return say(words, "way.exchange", { places: listing(words, exchangeFrom.map((place) => placeWord(words, place))) });
  };

  const zeros = (words, { zerosInsideQuotient, zerosAtQuotientEnd }) => {
    const [inside, atEnd] = [zerosInsideQuotient.length, zerosAtQuotientEnd.length];
    if (inside && atEnd) return [say(words, "way.zero-inside-and-at-end")];
    if (inside) return [oneOrMore(words, "inside", inside)];
    return atEnd ? [oneOrMore(words, "at-end", atEnd)] : [];
  };

  const oneOrMore = (words, where, count) =>
    say(words, count > 1 ? `way.zeros-${where}` : `way.zero-${where}`, { zeros: smallNumber(words, count) });

  const leftOver = (words, { quotient, remainder }) => {
    if (!remainder) return [];
    if (!quotient) return [say(words, "title.all-left-over")];
    return [say(words, "title.left-over", { remainder: smallNumber(words, remainder) })];
  };

  /** @type {(words: Phrases, division: Division) => string} what its lesson is called */
  const lessonTitle = (words, division) =>
    say(words, "title.lesson", { division: divisionName(words, division), way: wayToTheEnd(words, division) });

  /**
   * A lesson of the handbook; opening: its own first words, if it has any.
   * @typedef {{page: string, dividend: number, divisor: number, ribbons: boolean, opening?: string}} Lesson
   */

  /** @type {() => Lesson[]} every lesson of the handbook, in teaching order */
  const everyLesson = () =>
    sharing.handbook.lessons.flatMap(({ folder, lessons }) =>
      lessons.map(([name, dividend, divisor, ribbons = false, opening]) => {
        return { page: `${folder}${name}.html`, dividend, divisor, ribbons, opening };
      }),
    );

  /** @type {(division: Division) => Lesson | undefined} the lesson of the handbook that shares just this */
  const lessonOf = ({ dividend, divisor, ribbons }) =>
    everyLesson().find(
      (one) => one.dividend === dividend && one.divisor === divisor && one.ribbons === ribbons,
    );

  sharing.titles = { divisionName, everyLesson, lessonOf, lessonTitle, wayToTheEnd, wayOfSharing };
})((globalThis.sharing ??= {}));
