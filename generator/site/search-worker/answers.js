// Stands before the theme's search worker and reads what is asked before it does: words that the handbook does not have
// are asked as the nearest that it has, and the answer says so. Words that it has go through untouched.

const SETUP = 0;
const QUERY = 2;
const RESULT = 3;

/** @type {Map<string, number>} every word of the handbook, with how many pages have it, in a heading or tag ten times */
let words = new Map();
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
      if (/^[\p{L}']+$/u.test(word)) words.set(word, 10 * (pages(title) + pages(tags)) + pages(text));
    }
    return index;
  };
}

/**
 * @param {string} asked
 * @returns {string} the same with near words for those that the handbook does not have; as it is if it has them all
 */
function forgiven(asked) {
  const isKnown = (typed) => [...words.keys()].some((word) => word.startsWith(typed));
  return asked.replace(/[\p{L}']+/gu, (typed) => {
    const small = typed.toLowerCase();
    return small.length < SHORTEST || isKnown(small) ? typed : nearestWord(small, words) || typed;
  });
}

addEventListener("message", ({ data: message }) => {
  if (message.type === SETUP) keepWordsOfIndex();
  if (message.type !== QUERY) return;
  const asked = message.data;
  message.data = forgiven(asked);
  question = { asked, shown: message.data === asked ? undefined : message.data };
});

const answer = self.postMessage.bind(self);
self.postMessage = (message) => {
  if (message.type === RESULT) {
    message.data.items = withNumbersFirst(question.shown ?? question.asked, message.data.items);
    Object.assign(message.data, question);
  }
  answer(message);
};
