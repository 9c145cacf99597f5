// Questions about numbers: "4,816 / 4", "5230 among four", "we have five kids today", "for 12 with ribbons".
// A question is one if it holds nothing but numbers and the words that the phrases under [search] list. Where it names
// both a number and a group, it is one also with words that say little: "how much does everybody get if 5 share 3,210";
// and with any words, where nothing but a word of sharing stands between the two: "the cards for 4,327 among 6".

/** @typedef {{dividend?: number, divisor?: number, ribbons: boolean}} Division what a question names of a division */

const { MOST_CHILDREN } = sharing.limits;
const NO_GROUP = 1000; // "a child chose 7,091"

const PHRASES = sharing.handbook.words.phrases;
/** @type {(part: string) => Set<string>} */
const listed = (part) => new Set(PHRASES[`search.${part}`].split(/\s+/));
const OF_CHILDREN = listed("children");
const OF_RIBBONS = listed("ribbons");
const OF_SHARING = listed("among");
const BESIDES = listed("besides");
const BESIDES_A_DIVISION = new Set([...listed("besides-a-division"), ...listed("says-little")]);
/** @type {Map<string, number>} "four" and the like */
const NUMBERS_IN_WORDS = new Map(
  Object.entries(PHRASES)
    .map(([key, word]) => [word, Number(key.replace("number.", ""))])
    .filter(([, number]) => number > 0),
).set(PHRASES["search.dozen"], 12);

/** @type {(text: string) => string} "5230 / 4" for "5230 / 4 = 1307 r 2" */
const withoutResult = (text) => text.replace(/([÷/:]\s*\d+)\s*=.*/, "$1");

/** @type {(text: string) => string} 5230 for 5,230 and 5 230 */
const withoutMarks = (text) =>
  text
    .replace(/(\d)(?=\p{L}{2})/gu, "$1 ") // "6kids"
    .replace(/(\p{L}{2})(?=\d)/gu, "$1 ") // "5230by4"
    .replace(/(\d)[/÷]+(?=\d)/g, "$1/") // as the tags of lessons have it
    .replace(/\b(\d) (?=\d{3}\b)/g, "$1")
    .replace(/(\d)[,.'’\u2009\u202f\u00a0](?=\d{3}(?!\d))/g, "$1");

/** @type {(place: string) => string} "hundred" and the like */
const scaleInWords = (place) => sharing.phrases.say(`number.of-${place}`, { how_many: "" }).trim();
const HUNDRED = scaleInWords("hundreds");
const THOUSAND = scaleInWords("thousands");
const AND = sharing.phrases.say("number.with-less", { whole: "", rest: "" }).trim();
const COUNTED = [HUNDRED, THOUSAND, ...listed("pieces")].join("|");
const COUNTED_PIECES = new RegExp(`\\b\\d{1,2}(?= (?:${COUNTED})\\b)`, "g");

/** @type {(text: string) => string} "nine hundred" for "9 hundred", "ten bars" for "10 bars", as pages write it */
const inWords = (text) => text.replace(COUNTED_PIECES, (number) => PHRASES[`number.${number}`] ?? number);

/**
 * A number that is being said, word by word: whole thousands, and what is below them.
 * @typedef {{thousands: number, below: number}} Said
 */

/**
 * What it has become; undefined if it ends before.
 * @type {(said: Said | undefined, word: string) => Said | undefined}
 */
function goneOn(said, word) {
  const { thousands, below } = said ?? { thousands: 0, below: 0 };
  if (word === HUNDRED) {
    const isOfThousands = below > 9 && below < 100 && !thousands; // "twelve hundred"
    if (isOfThousands) return { thousands: Math.floor(below / 10), below: 100 * (below % 10) };
    return below > 0 && below < 10 ? { thousands, below: 100 * below } : undefined;
  }
  if (word === THOUSAND) return below > 0 && !thousands ? { thousands: below, below: 0 } : undefined;
  const number = NUMBERS_IN_WORDS.get(word);
  const hasRoom = number < 10 ? below % 10 === 0 && below % 100 !== 10 : below % 100 === 0;
  return number && hasRoom ? { thousands, below: below + number } : undefined;
}

/**
 * @param {string} text
 * @returns {(string | number)[]} its words and numbers in order, numbers in words and with a mark among them
 */
function wordsAndNumbers(text) {
  const found = inWords(withoutMarks(withoutResult(text.toLowerCase())))
    .replaceAll("’", "'")
    .match(/[\p{L}\p{N}']+|[÷/]/gu);
  const words = [];
  let said;
  for (const [place, word] of (found || []).entries()) {
    if (word === AND && said && said.below % 100 === 0 && NUMBERS_IN_WORDS.has(found[place + 1])) continue;
    const more = said && goneOn(said, word);
    if (more) words.pop();
    said = more ?? goneOn(undefined, word);
    if (said) words.push(1000 * said.thousands + said.below);
    else words.push(/^\d{1,6}$/.test(word) ? Number(word) : word);
  }
  return words;
}

/** @type {(number: number) => boolean} */
const isLarge = (number) => number > MOST_CHILDREN;

/** @type {(word: string | number, ...more: Set<string>[]) => boolean} a number, or a word that stands beside numbers */
const isBeside = (word, ...more) =>
  typeof word === "number" || [OF_CHILDREN, OF_SHARING, BESIDES, ...more].some((list) => list.has(word));

/**
 * @param {string} text
 * @returns {boolean} whether it says what lies on trays: three numbers or more that are no groups, two of them the same
 */
function traysAsked(text) {
  const words = wordsAndNumbers(text);
  const numbers = words.filter((word) => typeof word === "number" && isLarge(word));
  return (
    numbers.length > 2 &&
    new Set(numbers).size < numbers.length &&
    words.every((word) => isBeside(word, BESIDES_A_DIVISION))
  );
}

/**
 * @param {string} text
 * @returns {Division | undefined} undefined if it asks for anything else, or for what cannot be shared
 */
function divisionAsked(text) {
  const words = wordsAndNumbers(text);
  const places = [...words.keys()].filter((place) => typeof words[place] === "number");
  const ribbons = words.some((word) => OF_RIBBONS.has(word));
  const [first, second] = places.map((place) => words[place]);
  const isDivision = second !== undefined && isLarge(first) !== isLarge(second);
  const between = words.slice(places[0] + 1, places[1]);
  // "4,327 divided by 6"
  const isJoined =
    isDivision &&
    between.some((word) => OF_SHARING.has(word)) &&
    between.every((word) => OF_SHARING.has(word) || BESIDES.has(word));
  const isOfNumbers = (word, place) => {
    // "ten ribbons" counts ribbons; "3,432 for 12 ribbons" does not
    if (OF_RIBBONS.has(word)) return typeof words[place - 1] !== "number" || (isDivision && place - 1 === places[1]);
    if (isJoined || (isDivision && BESIDES_A_DIVISION.has(word))) return true;
    return isBeside(word);
  };
  if (![1, 2].includes(places.length) || !words.every(isOfNumbers)) return undefined;

  const division = (dividend, divisor) => {
    const withRibbons = divisor !== undefined && (ribbons || isLarge(divisor));
    const { isNumber, isGroup } = sharing.limits;
    const canBeAsked =
      (dividend === undefined || isNumber(dividend)) && (divisor === undefined || isGroup(divisor, withRibbons));
    return canBeAsked ? { dividend, divisor, ribbons: withRibbons } : undefined;
  };
  const isFollowedByChildren = first < NO_GROUP && OF_CHILDREN.has(words[places[0] + 1]);
  if (second !== undefined) {
    const groupFirst = isFollowedByChildren || (!isLarge(first) && isLarge(second));
    return groupFirst ? division(second, first) : division(first, second);
  }
  const children = words.some((word) => OF_CHILDREN.has(word));
  const isOfGroup = ribbons || ((children || OF_SHARING.has(words[places[0] - 1])) && first < NO_GROUP);
  if (isOfGroup && children && isLarge(first) && !ribbons) return undefined; // more than twelve take two lessons
  if (isOfGroup) return division(undefined, first);
  return isLarge(first) ? division(first, undefined) : undefined;
}
