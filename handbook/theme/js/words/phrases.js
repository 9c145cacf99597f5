// The sentences that the program writes, filled in by the rules of generator/words/phrases.py.
"use strict";
{
  /**
   * The phrases of one language as the build writes them. phrases: by key, texts or, by plural category, the forms of
   * one; plural: by category, the whole numbers that belong to it; grouping: how numbers are written.
   * @typedef {{phrases: Object, plural: Object<string, number[]>, grouping: Grouping}} Phrases
   */

  /**
   * The mark between the thousands and the hundreds of a number, and whether numbers of four digits have it too.
   * @typedef {{mark: string, in_four_digits: boolean}} Grouping
   */

  /** The phrases that the page has loaded. */
  const loaded = () => sharing.handbook.words;

  /** @type {(number: number, grouping?: Grouping) => string} 5,230 or 5 230; with no mark in four digits 5230 */
  const written = (number, { mark, in_four_digits } = loaded().grouping) =>
    in_four_digits || number >= 10_000 ? String(number).replace(/\B(?=(\d{3})+$)/g, mark) : String(number);

  /** @type {(key: string, places?: Object<string, string | number>) => string} */
  const say = (key, places = {}) => {
    const phrase = loaded().phrases[key];
    if (phrase === undefined) throw new Error(`phrase ${key}: there is none`);
    const text = typeof phrase === "string" ? phrase : phrase[category(places.count)];
    return text.replace(/\{(\w+)\}/g, (_, name) => {
      const value = places[name];
      if (value === undefined) throw new Error(`phrase ${key}: there is no ${name}`);
      return typeof value === "number" ? written(value) : value;
    });
  };

  /** @type {(key: string) => boolean} */
  const has = (key) => key in loaded().phrases;

  /** The plural category of a whole number. */
  const category = (count) => {
    const { plural } = loaded();
    return Object.keys(plural).find((name) => plural[name].includes(count)) ?? "other";
  };

  sharing.phrases = { written, say, has };
}
