// Numbers, places and pieces as people say them.
"use strict";
{
  const { HUNDREDS, THOUSANDS, placeName, placesHeld, quotientOf } = sharing.places;
  const { say, written } = sharing.phrases;

  const LARGEST_SMALL = 12;
  const LARGEST_NAMED_PLACE = 6;

  /** @type {(number: number) => string} from 0 to 9,999: "two hundred and thirty" */
  const numberWords = (number) => {
    if (number <= 20) return say(`number.${number}`);
    if (number < 100) {
      const units = number % 10;
      const tens = say(`number.${number - units}`);
      return units ? say("number.tens-and-units", { tens, units: numberWords(units) }) : tens;
    }
    const place = number >= 1000 ? THOUSANDS : HUNDREDS;
    const rest = number % 10 ** place;
    const how_many = numberWords(quotientOf(number, 10 ** place));
    const whole = say(`number.of-${placeName(place)}`, { how_many });
    if (!rest) return whole;
    return say(`number.with-${rest < 100 ? "less" : "hundreds"}`, { whole, rest: numberWords(rest) });
  };

  /** @type {(number: number) => string} in a sentence: words up to twelve, digits from there */
  const smallNumber = (number) =>
    number <= LARGEST_SMALL ? numberWords(number) : written(number);

  /** @type {(place: number) => string} "tens" */
  const placeWord = (place) => say(`place.${nameOf(place)}`, { power: place });

  /** @type {(number: number, place: number) => string} "1 ten", "12 hundreds" */
  const piece = (number, place) => piecesOf(number, place, written(number));

  /** @type {(place: number) => string} "one ten" */
  const onePiece = (place) => saidPiece(1, place);

  /** @type {(number: number, place: number) => string} as it is spoken: "twelve hundreds" */
  const saidPiece = (number, place) => piecesOf(number, place, numberWords(number));

  /** @type {(counts: Counts) => string} "nine hundreds, and two tens", as it is spoken */
  const saidPieces = (counts) => {
    const places = placesHeld(counts);
    const beforeTheLast = places.at(-2) >= HUNDREDS ? "list.apart" : "list.last";
    return listing(places.map((place) => saidPiece(counts[place], place)), beforeTheLast);
  };

  /** @type {(counts: Counts) => string} "5 thousands and 3 tens"; an empty place is not named */
  const pieces = (counts) =>
    listing(placesHeld(counts).map((place) => piece(counts[place], place))) || say("piece.none");

  const piecesOf = (count, place, number) => say(`piece.${nameOf(place)}`, { count, number, power: place });

  const nameOf = (place) => (place <= LARGEST_NAMED_PLACE ? placeName(place) : "larger");

  /** @type {(width: number) => string} who stands for a power of ten, as a number: "a hundred" */
  const standsForWord = (width) => say(`stands-for.${placeName(width)}`);

  /** @type {(place: number, count: number) => string} so many, without the number: "bars" */
  const material = (place, count) =>
    place > THOUSANDS
      ? say("material.larger", { count, worth: 10 ** place })
      : say(`material.${placeName(place)}`, { count });

  /** @type {(items: string[]) => string} "a, b, c" */
  const inARow = (items) => items.join(say("list.comma"));

  /** @type {(items: string[]) => string} "a; b; c" */
  const inClauses = (items) => items.join(say("list.semicolon"));

  /** @type {(items: string[], beforeTheLast?: string) => string} "a, b and c"; with "list.or": "a, b or c" */
  const listing = (items, beforeTheLast = "list.last") =>
    items.length < 2
      ? items.join("")
      : inARow(items.slice(0, -1)) + say(beforeTheLast) + items.at(-1);

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
    capital,
  };
}
