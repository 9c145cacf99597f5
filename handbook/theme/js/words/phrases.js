// The sentences that the program writes, filled in by the rules of generator/words/phrases.py.
"use strict";
((sharing) => {
  /**
   * The phrases of one language as the build writes them. phrases: texts or tables of texts by plural category, by
   * dotted key; plural: by category, the whole numbers that belong to it; grouping: how numbers are written.
   * @typedef {{phrases: Object<string, string | Object<string, string>>, plural: Object<string, number[]>,
   *   grouping: Grouping}} Phrases
   */

  /**
   * The mark between the thousands and the hundreds of a number, and whether numbers of four digits have it too.
   * @typedef {{mark: string, in_four_digits: boolean}} Grouping
   */

  /** @type {(grouping: Grouping, number: number) => string} 5,230 or 5 230; with no mark in four digits 5230 */
  const written = ({ mark, in_four_digits }, number) =>
    in_four_digits || number >= 10_000 ? String(number).replace(/\B(?=(\d{3})+$)/g, mark) : String(number);

  /** @type {(words: Phrases, key: string, places?: Object<string, string | number>) => string} */
  const say = (words, key, places = {}) => {
    const phrase = words.phrases[key];
    if (phrase === undefined) throw new Error(`phrase ${key}: there is none`);
    const text = typeof phrase === "string" ? phrase : phrase[category(words, places.count)];
    return text.replace(/\{(\w+)\}/g, (_, name) => {
      const value = places[name];
      if (value === undefined) throw new Error(`phrase ${key}: there is no ${name}`);
      return typeof value === "number" ? written(words.grouping, value) : value;
    });
  };

  /** @type {(words: Phrases, key: string) => boolean} */
  const has = (words, key) => key in words.phrases;

  /** The plural category of a whole number. */
  const category = ({ plural }, count) => Object.keys(plural).find((name) => plural[name].includes(count)) ?? "other";

  sharing.phrases = { written, say, has };
})((globalThis.sharing ??= {}));
