// Runs before the theme's search worker and changes a question before that reads it: a word that the handbook does not
// have is replaced by the nearest that it has, and the answer says so; of a sentence only the words that say something
// are asked.

const SETUP = 0;
const QUERY = 2;
const RESULT = 3;

const SAYS_LITTLE = new Set(PHRASES["search.says-little"].split(/\s+/));

/**
 * Every word of the handbook, with how many pages have it, in a heading or tag ten times.
 * @type {Map<string, number>}
 */
let words = new Map();
/**
 * Of pages that have something above their heading, as lessons and steps do, what stands under it: the theme takes that
 * for a part of the page.
 * @type {Map<string, {location: string, text: string}>}
 */
let underHeadings = new Map();
/** @type {{asked: string, shown?: string}} the last question, and what was asked in its place */
let question = { asked: "" };

/** The theme builds its index once; its words are kept from there. */
function keepWordsOfIndex() {
  const { prototype } = lunr.Builder;
  const { build } = prototype;
  prototype.build = function () {
    const index = build.call(this);
    const pages = (found) => Object.keys(found || {}).length;
    for (const [word, { title, tags, text }] of Object.entries(index.invertedIndex)) {
      const straight = word.replaceAll("’", "'");
      const weight = 10 * (pages(title) + pages(tags)) + pages(text);
      if (/^[\p{L}']+$/u.test(straight)) words.set(straight, weight + (words.get(straight) ?? 0));
    }
    return index;
  };
}

/** @type {(docs: {location: string, title: string, text: string}[]) => void} from the entries of the index, in order */
function keepUnderHeadings(docs) {
  const heads = docs.filter(
    ({ location, title }, place) =>
      title === docs[place - 1]?.title && location.startsWith(`${docs[place - 1].location}#`),
  );
  underHeadings = new Map(heads.map((head) => [head.location.split("#")[0], head]));
}

/**
 * @param {string} asked
 * @returns {string} its words without what stands around them in a sentence, which the theme would look for or take for
 *   an order; quotation marks, which keep words together, and marks within a word or number stay
 */
const withoutPunctuation = (asked) =>
  withoutResult(asked)
    .replaceAll("’", "'")
    .replace(/[^\p{L}\p{N}\s"'/÷×.,-]+/gu, " ")
    .replace(/(^|[\s"])[.,'-]+|[.,'-]+(?=[\s"]|$)/g, "$1");

/**
 * @param {string} asked
 * @returns {string} the same with near words for those that the handbook does not have; as it is if it has them all
 */
function forgiven(asked) {
  const isKnown = (typed) => [...words.keys()].some((word) => word.startsWith(typed));
  const isWord = (part) => part.length > 1 && (SAYS_LITTLE.has(part) || (part.length > 2 && words.has(part)));
  return asked.replace(/[\p{L}']+/gu, (typed) => {
    const small = typed.toLowerCase();
    return small.length < SHORTEST || SAYS_LITTLE.has(small) || isKnown(small)
      ? typed
      : wordOfForm(small, words) || nearestWord(small, words) || inParts(small, isWord) || typed;
  });
}

/**
 * @param {string[]} words
 * @returns {string[]} those that say something; all of them if none does
 */
function sayingMuch(words) {
  const kept = words.filter((word) => !SAYS_LITTLE.has(word.toLowerCase()));
  return kept.length ? kept : words;
}

/**
 * @param {string} asked
 * @returns {string} the same for the theme: without the words that say little, if two others are left; a number without
 *   its mark; and a word of one or two letters that is finished ends there, where the theme would take it for the
 *   beginning of a longer one. The last of several is finished if the handbook has it as a word: "tidying up". A word
 *   with an apostrophe is asked with a straight and with a curved one
 */
function sharpened(asked) {
  const typed = (divisionAsked(asked) ? withoutMarks(asked) : inWords(asked)).trim().split(/\s+/);
  const telling = sayingMuch(typed);
  const kept = telling.length > 1 ? telling : typed;
  const isFinished = (place) =>
    place < kept.length - 1 ||
    asked.endsWith(" ") ||
    (place > 0 && (/^\d{1,2}$/.test(kept[place]) || words.has(kept[place].toLowerCase())));
  if (/^\d{1,2}$/.test(kept.join(" "))) return `${kept[0]} ${kept[0]}^9`; // "4": a group, or how a number begins
  const ended = kept.map((word, place) => (/^[\p{L}\d]{1,2}$/u.test(word) && isFinished(place) ? `${word}^1` : word));
  return ended.flatMap((word) => (word.includes("'") ? [word, word.replaceAll("'", "’")] : [word])).join(" ");
}

addEventListener("message", ({ data: message }) => {
  if (message.type === SETUP) {
    keepWordsOfIndex();
    keepUnderHeadings(message.data.docs);
  }
  if (message.type !== QUERY) return;
  const asked = message.data;
  const plain = withoutPunctuation(asked);
  const ofTrays = traysAsked(plain) ? PHRASES["search.trays"] : undefined;
  const shown = divisionAsked(plain) ? plain : (ofTrays ?? forgiven(plain));
  message.data = sharpened(shown);
  question = { asked, shown: shown === plain ? undefined : shown };
});

/**
 * @param {object[]} parts of a page, the one that suits best first
 * @returns {object[]} the same, with what stands under the heading told of the page itself
 */
function toldUnderHeading(parts) {
  const { location } = parts.find((part) => underHeadings.has(part.location)) ?? {};
  if (location === undefined) return parts;
  const head = underHeadings.get(location);
  const ofPage = parts.filter((part) => [location, head.location].includes(part.location));
  const { text } = ofPage.find((part) => part.location === head.location) ?? head;
  return parts
    .filter((part) => part === ofPage[0] || !ofPage.includes(part))
    .map((part) => (part === ofPage[0] ? { ...part, location, text } : part));
}

/**
 * What the page does not show is not sent to it and costs it no time: the tags, by which a page is only found, and
 * with each part the page that it belongs to.
 * @param {object[][]} items of each page its parts
 * @returns {object[][]} the same without these
 */
const asShown = (items) =>
  items.map((parts) =>
    toldUnderHeading(parts).map(({ tags, parent, terms, ...part }) => ({ ...part, terms: toMark(terms) })),
  );

/**
 * @param {string} asked
 * @param {object[][]} items of each page its parts
 * @returns {object[][]} the same, and first the pages that have all that was asked as a tag, in which the theme has
 *   marked words; then those that have what says something in it
 */
function taggedFirst(asked, items) {
  const core = (text) => sayingMuch(text.split(/\s+/)).join(" ");
  const bare = (tag) => tag.replace(/<[^>]+>/g, "").toLowerCase();
  const words = asked.trim().toLowerCase();
  const coreOfWords = core(words);
  const pages = items.map((parts) => ({ parts, tags: parts.flatMap(({ tags = [] }) => tags).map(bare) }));
  const whole = pages.filter(({ tags }) => tags.includes(words));
  const nearly = pages.filter(({ tags }) => tags.some((tag) => core(tag) === coreOfWords));
  return [...new Set([...whole, ...nearly, ...pages])].map(({ parts }) => parts);
}

/**
 * The theme marks the words that were found on the page it leads to. Of a number it would mark single digits.
 * @param {Object<string, boolean>} terms the words that were asked, and whether the page has them
 * @returns {Object<string, boolean>} the same without the numbers that it has
 */
const toMark = (terms) =>
  Object.fromEntries(
    Object.entries(terms).filter(([word, has]) =>
      has ? !/\d/.test(word) : !word.includes("’") && !terms[word.replaceAll("'", "’")],
    ),
  );

const answer = self.postMessage.bind(self);
self.postMessage = (message) => {
  if (message.type === RESULT) {
    const asked = question.shown ?? question.asked;
    message.data.items = asShown(withNumbersFirst(asked, taggedFirst(withoutPunctuation(asked), message.data.items)));
    Object.assign(message.data, question);
  }
  answer(message);
};
