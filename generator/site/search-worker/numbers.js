// Questions about numbers: "4,816 / 4", "5230 among four", "we have five kids today", "for 12 with ribbons".
// A question is one if it holds nothing but numbers and the words that the phrases under [search] list. Where it names
// both a number and a group, it is one also with words that say little: "how much does everybody get if 5 share 3,210".

/** @typedef {{dividend?: number, divisor?: number, ribbons: boolean}} Division what a question names of a division */

const LARGEST_PLAIN_GROUP = 12;

/** @type {(part: string) => Set<string>} */
const listed = (part) => new Set(sharing.handbook.words.phrases.search[part].split(/\s+/));
const OF_CHILDREN = listed("children");
const OF_RIBBONS = listed("ribbons");
const OF_SHARING = listed("among");
const BESIDES = listed("besides");
const BESIDES_A_DIVISION = new Set([...listed("besides-a-division"), ...listed("says-little")]);
/** @type {Map<string, number>} "four" and the like */
const NUMBERS_IN_WORDS = new Map(
  Object.entries(sharing.handbook.words.phrases.number)
    .map(([digits, word]) => [word, Number(digits)])
    .filter(([, number]) => number > 0),
);

/** @type {(text: string) => string} 5230 for 5,230 */
const withoutMarks = (text) => text.replace(/(\d)[,.'’\u2009\u202f\u00a0](?=\d{3}(?!\d))/g, "$1");

/**
 * @param {string} text
 * @returns {(string | number)[]} its words and numbers in order, numbers in words and with a mark among them
 */
function wordsAndNumbers(text) {
  const found = withoutMarks(text.toLowerCase())
    .replaceAll("’", "'")
    .match(/[\p{L}\p{N}']+/gu);
  const words = [];
  for (const word of found || []) {
    const number = /^\d{1,6}$/.test(word) ? Number(word) : NUMBERS_IN_WORDS.get(word);
    const last = words.at(-1);
    const endsTens = number < 10 && last >= 20 && last < 100 && last % 10 === 0 && !/\d/.test(word);
    if (endsTens) words[words.length - 1] = last + number;
    else words.push(number ?? word);
  }
  return words;
}

/**
 * @param {string} text
 * @returns {Division | undefined} undefined if it asks for anything else
 */
function divisionAsked(text) {
  const words = wordsAndNumbers(text);
  const places = [...words.keys()].filter((place) => typeof words[place] === "number");
  const ribbons = words.some((word) => OF_RIBBONS.has(word));
  const [first, second] = places.map((place) => words[place]);
  const isLarge = (number) => number > LARGEST_PLAIN_GROUP;
  const isDivision = second !== undefined && isLarge(first) !== isLarge(second);
  const isOfNumbers = (word, place) => {
    // "ten ribbons" counts ribbons; "3,432 for 12 ribbons" does not
    if (OF_RIBBONS.has(word)) return typeof words[place - 1] !== "number" || (isDivision && place - 1 === places[1]);
    if (isDivision && BESIDES_A_DIVISION.has(word)) return true;
    return typeof word === "number" || [OF_CHILDREN, OF_SHARING, BESIDES].some((list) => list.has(word));
  };
  if (![1, 2].includes(places.length) || !words.every(isOfNumbers)) return undefined;

  const division = (dividend, divisor) => ({
    dividend,
    divisor,
    ribbons: divisor !== undefined && (ribbons || isLarge(divisor)),
  });
  const isFollowedByChildren = OF_CHILDREN.has(words[places[0] + 1]);
  if (second !== undefined) {
    const groupFirst = isFollowedByChildren || (!isLarge(first) && isLarge(second));
    return groupFirst ? division(second, first) : division(first, second);
  }
  const children = words.some((word) => OF_CHILDREN.has(word));
  if (ribbons || children || OF_SHARING.has(words[places[0] - 1])) return division(undefined, first);
  return isLarge(first) ? division(first, undefined) : undefined;
}
