// How near a typed word is to a word of the handbook, and the nearest of all.
// A letter too many, too few or another costs 1; frequent slips of typing and spelling cost less: a letter doubled, ck
// for k, two letters swapped, letters that sound alike or are neighbours on the keyboard, a vowel too many or too few.

const DOUBLED = 0.5;
const SWAPPED = 0.6;
const ALIKE = 0.6;
const NEIGHBOUR = 0.8;
const VOWEL = 0.8;
const UNFINISHED = 0.3; // the end of a word that is not typed, however long: the search looks for beginnings
const VOWELS = "aeiou";
const KEYS = "qwertyuiop asdfghjkl zxcvbnm qaz wsx edc rfv tgb yhn ujm ik ol"; // along the rows, and down
const SOUNDS = "ck ks sz fv kq gj dt iy mn";
const SHORTEST = 5; // shorter words have too many neighbours
const LONG = 8; // from here on as much again is forgiven
/** Endings of another form of a word, and what its stem ends with in their place. */
const FORMS = [
  [/s$/, ""],
  [/es$/, ""],
  [/ie[sd]$/, "y"],
  [/(?:ing|ed)$/, ""],
  [/(?:ing|ed)$/, "e"],
  [/(.)\1(?:ing|ed)$/, "$1"],
];

/**
 * @param {string} one a letter
 * @param {string} other another letter
 * @returns {number} what it costs to have typed one for the other
 */
function costOfLetter(one, other) {
  if (one === other) return 0;
  const isIn = (pairs) => pairs.includes(one + other) || pairs.includes(other + one);
  if ((VOWELS.includes(one) && VOWELS.includes(other)) || isIn(SOUNDS)) return ALIKE;
  return isIn(KEYS) ? NEIGHBOUR : 1;
}

/**
 * @param {string} text
 * @param {number} place
 * @returns {number} what it costs to have typed the letter there in vain, or not at all
 */
function costOfExtra(text, place) {
  if (text[place] === text[place - 1] || text.startsWith("ck", place)) return DOUBLED;
  return VOWELS.includes(text[place]) ? VOWEL : 1;
}

/**
 * @param {string} typed
 * @param {string} word
 * @returns {number} the least that it costs to have typed one for the other
 */
function distance(typed, word) {
  let beforeLast = [];
  let last = [0];
  for (let column = 0; column < word.length; column++) last.push(last[column] + costOfExtra(word, column));
  for (let row = 0; row < typed.length; row++) {
    const costs = [last[0] + costOfExtra(typed, row)];
    for (let column = 0; column < word.length; column++) {
      const swapped = row && column && typed[row] === word[column - 1] && typed[row - 1] === word[column];
      costs.push(
        Math.min(
          last[column] + costOfLetter(typed[row], word[column]),
          last[column + 1] + costOfExtra(typed, row),
          costs[column] + costOfExtra(word, column),
          swapped ? beforeLast[column - 1] + SWAPPED : Infinity,
        ),
      );
    }
    [beforeLast, last] = [last, costs];
  }
  return Math.min(last[word.length], Math.min(...last) + UNFINISHED);
}

/**
 * @param {string} typed
 * @param {Map<string, number>} words the words of the handbook, with how much each weighs
 * @returns {string | undefined} the nearest of them, and of those equally near the weightiest
 */
function nearestWord(typed, words) {
  const most = typed.length >= LONG ? 2 : 1;
  let nearest;
  let least = [most, 0];
  for (const [word, weight] of words) {
    if (word.length < typed.length - 2 * most) continue;
    const cost = distance(typed, word);
    if (cost < least[0] || (cost === least[0] && weight > least[1])) {
      nearest = word;
      least = [cost, weight];
    }
  }
  return nearest;
}

/**
 * @param {string} typed
 * @param {Map<string, number>} words the words of the handbook
 * @returns {string | undefined} the one of them that it is a form of, or another form of the same: "choose" for
 *   "choosing", "box" for "boxes", "mixed" for "mixing"
 */
function wordOfForm(typed, words) {
  const stems = FORMS.map(([ending, instead]) => typed.replace(ending, instead)).filter(
    (stem) => stem !== typed && stem.length > 2,
  );
  const others = stems.flatMap((stem) => [`${stem}ed`, `${stem}ing`, `${stem}s`]);
  return [...stems, ...others].find((word) => words.has(word));
}

/**
 * @param {string} typed words without the spaces between them: "firstaid"
 * @param {(part: string) => boolean} isWord
 * @returns {string | undefined} the same with spaces, of as few words as can be
 */
function inParts(typed, isWord) {
  const best = [[]];
  for (let end = 1; end <= typed.length; end++) {
    for (let start = 0; start < end; start++) {
      const part = typed.slice(start, end);
      const isBetter = best[start] && (!best[end] || best[start].length + 1 < best[end].length);
      if (isBetter && isWord(part)) best[end] = [...best[start], part];
    }
  }
  return best[typed.length]?.join(" ");
}
