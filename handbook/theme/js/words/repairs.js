// A repair in words: what the hands do, one movement after the other.
"use strict";
((sharing) => {
  const { UNITS } = sharing.places;
  const { say } = sharing.phrases;
  const { material, placeWord, smallNumber } = sharing.numberWords;

  /**
   * Every movement as a sentence; "" where no piece is moved. Trays are told by what they read, and where a movement has
   * changed that, by what they read now; with ribbons also by whom they are for, because trays for different numbers may
   * read alike. Where everything goes back to the bank, no other movement is needed before it.
   * @type {(words: Phrases, repair: Repair, ribbons: boolean) => string}
   */
  const repairWords = (words, repair, ribbons) => {
    if (repair.some((step) => step.everything)) return say(words, "repair.everything-again");
    const changed = new Set();
    const tray = (trays) => {
      const key = `repair.tray${ribbons ? "-for" : ""}${changed.has(nameOf(trays, 0)) ? "-now" : ""}`;
      return say(words, key, { count: trays.trays, reads: trays.reads, stands_for: trays.stands_for });
    };
    return repair
      .map((step) => {
        const told = stepWords(words, step, tray);
        readAfter(step).forEach((read) => changed.add(read));
        return told;
      })
      .join(" ");
  };

  const nameOf = ({ stands_for, reads }, more) => `${stands_for} ${reads + more}`;

  /** What trays read that a movement has changed, with whom they are for. */
  const readAfter = ({ pieces, place, giving, taking }) => {
    const worth = pieces * 10 ** place;
    return [...(giving ? [nameOf(giving, -worth)] : []), ...(taking ? [nameOf(taking, worth)] : [])];
  };

  const stepWords = (words, step, tray) => {
    if ("again" in step) return say(words, "repair.again", { place: placeWord(words, step.again) });
    if ("exchange" in step) {
      const down = step.exchange === 1;
      const large = down ? step.place : step.place + 1;
      return say(words, down ? "repair.down" : "repair.up", {
        large: pieces(words, 1, large),
        small: pieces(words, 10, large - 1),
        source: spot(words, step.at, large, step.trays, tray),
      });
    }
    return say(words, step.target === "bank" ? "repair.to-bank" : `repair.from-${step.source}`, {
      pieces: pieces(words, step.pieces, step.place),
      source: spot(words, step.source, step.place, step.giving, tray),
      target: spot(words, step.target, step.place, step.taking, tray),
    });
  };

  /** "one ten-bar", "three unit beads" */
  const pieces = (words, number, place) =>
    say(words, "repair.pieces", { number: smallNumber(words, number), material: material(words, place, number) });

  /** What is not left over lies in the middle. */
  const spot = (words, at, place, trays, tray) =>
    trays ? tray(trays) : say(words, at === "left-over" && place !== UNITS ? "repair.middle" : `repair.${at}`);

  sharing.repairWords = { repairWords };
})((globalThis.sharing ??= {}));
