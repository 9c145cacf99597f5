// Numbers, places and pieces as people say them.
"use strict";
((sharing) => {
  const { HUNDREDS, THOUSANDS, placeName, placesHeld, quotientOf } = sharing.places;
  const { say, written } = sharing.phrases;

  const LARGEST_SMALL = 12;
  const LARGEST_NAMED_PLACE = 6;

  /** @type {(words: Phrases, number: number) => string} from 0 to 9,999: "five thousand two hundred thirty" */
  const numberWords = (words, number) => {
    if (number <= 20) return say(words, `number.${number}`);
    if (number < 100) {
      const units = number % 10;
      const tens = say(words, `number.${number - units}`);
      return units ? say(words, "number.tens-and-units", { tens, units: numberWords(words, units) }) : tens;
    }
    const place = number >= 1000 ? THOUSANDS : HUNDREDS;
    const rest = number % 10 ** place;
    const how_many = numberWords(words, quotientOf(number, 10 ** place));
    const whole = say(words, `number.of-${placeName(place)}`, { how_many });
    return rest ? say(words, "number.with-rest", { whole, rest: numberWords(words, rest) }) : whole;
  };

  /** @type {(words: Phrases, number: number) => string} in a sentence: words up to twelve, digits from there */
  const smallNumber = (words, number) =>
    number <= LARGEST_SMALL ? numberWords(words, number) : written(words.grouping, number);

  /** @type {(words: Phrases, place: number) => string} "tens" */
  const placeWord = (words, place) => ofAPlace(words, "place.", place);

  /** @type {(words: Phrases, number: number, place: number) => string} "1 ten", "12 hundreds" */
  const piece = (words, number, place) => ofAPlace(words, "piece.", place, { count: number });

  /** @type {(words: Phrases, place: number) => string} "one ten" */
  const onePiece = (words, place) => ofAPlace(words, "one-piece.", place);

  /** @type {(words: Phrases, number: number, place: number) => string} as it is spoken: "twelve hundreds" */
  const saidPiece = (words, number, place) =>
    ofAPlace(words, "said-piece.", place, { count: number, number: numberWords(words, number) });

  /** @type {(words: Phrases, counts: Counts) => string} "two tens and three units", as it is spoken */
  const saidPieces = (words, counts) =>
    listing(words, placesHeld(counts).map((place) => saidPiece(words, counts[place], place)));

  /** @type {(words: Phrases, counts: Counts) => string} "5 thousands and 3 tens"; an empty place is not named */
  const pieces = (words, counts) =>
    listing(words, placesHeld(counts).map((place) => piece(words, counts[place], place))) || say(words, "piece.none");

  const ofAPlace = (words, beginning, place, filled = {}) => {
    const name = place <= LARGEST_NAMED_PLACE ? placeName(place) : "larger";
    return say(words, `${beginning}${name}`, { power: place, ...filled });
  };

  /** @type {(words: Phrases, width: number) => string} who stands for a power of ten, as a number: "a hundred" */
  const standsForWord = (words, width) => say(words, `fair.stands-for-${placeName(width)}`);

  /** @type {(words: Phrases, place: number, count: number) => string} so many, without the number: "ten-bars" */
  const material = (words, place, count) =>
    place > THOUSANDS
      ? say(words, "material.larger", { count, worth: 10 ** place })
      : say(words, `material.${placeName(place)}`, { count });

  /** @type {(words: Phrases, items: string[]) => string} "a, b, c" */
  const inARow = (words, items) => items.join(say(words, "list.comma"));

  /** @type {(words: Phrases, items: string[]) => string} "a; b; c" */
  const inClauses = (words, items) => items.join(say(words, "list.semicolon"));

  /** @type {(words: Phrases, items: string[]) => string} "a, b and c" */
  const listing = (words, items) => listed(words, items, "list.last");

  /** @type {(words: Phrases, items: string[]) => string} "a, b or c" */
  const choiceOf = (words, items) => listed(words, items, "list.or");

  const listed = (words, items, beforeTheLast) =>
    items.length < 2
      ? items.join("")
      : inARow(words, items.slice(0, -1)) + say(words, beforeTheLast) + items[items.length - 1];

  /** @type {(text: string) => string} with a capital first letter and the rest as it is */
  const capital = (text) => text.slice(0, 1).toUpperCase() + text.slice(1);

  sharing.numberWords = {
    numberWords,
    smallNumber,
    placeWord,
    standsForWord,
    piece,
    onePiece,
    saidPiece,
    saidPieces,
    pieces,
    material,
    inARow,
    inClauses,
    listing,
    choiceOf,
    capital,
  };
})((globalThis.sharing ??= {}));
