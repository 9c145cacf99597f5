// A repair in words: what the hands do, one movement after the other.
"use strict";
((sharing) => {
  const { UNITS } = sharing.places;
  const { say } = sharing.phrases;
  const { material, placeWord, smallNumber } = sharing.numberWords;

  /**
   * Every movement as a sentence; "" where no piece is moved. Trays are told by what they read, after the first movement
   * by what they read now; with ribbons also by whom they are for, because trays for different numbers may read alike.
   * @type {(words: Phrases, repair: Repair, ribbons: boolean) => string}
   */
  const repairWords = (words, repair, ribbons) => {
    const tray = ribbons ? "repair.tray-for" : "repair.tray";
    return repair.map((step, number) => stepWords(words, step, number ? `${tray}-now` : tray)).join(" ");
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

  /** "the tray that reads 1,306", "each of the 3 trays that read 1,307"; what is not left over lies in the middle */
  const spot = (words, at, place, trays, tray) => {
    if (trays) return say(words, tray, { count: trays.trays, reads: trays.reads, stands_for: trays.stands_for });
    return say(words, at === "left-over" && place !== UNITS ? "repair.middle" : `repair.${at}`);
  };

  sharing.repairWords = { repairWords };
})((globalThis.sharing ??= {}));
