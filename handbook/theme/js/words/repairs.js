// A repair in words: what the hands do, one movement after the other.
"use strict";
((sharing) => {
  const { UNITS } = sharing.places;
  const { say } = sharing.phrases;
  const { material, placeWord, smallNumber } = sharing.numberWords;

  /** @type {(words: Phrases, repair: Repair) => string} every movement as a sentence; "" where no piece is moved */
  const repairWords = (words, repair) => repair.map((step) => stepWords(words, step)).join(" ");

  const stepWords = (words, step) => {
    if ("again" in step) return say(words, "repair.again", { place: placeWord(words, step.again) });
    if ("exchange" in step) {
      const down = step.exchange === 1;
      const large = down ? step.place : step.place + 1;
      return say(words, down ? "repair.down" : "repair.up", {
        large: pieces(words, 1, large),
        small: pieces(words, 10, large - 1),
        source: spot(words, step.at, large, step.trays),
      });
    }
    return say(words, step.target === "bank" ? "repair.to-bank" : `repair.from-${step.source}`, {
      pieces: pieces(words, step.pieces, step.place),
      source: spot(words, step.source, step.place, step.giving),
      target: spot(words, step.target, step.place, step.taking),
    });
  };

  /** "one ten-bar", "three unit beads" */
  const pieces = (words, number, place) =>
    say(words, "repair.pieces", { number: smallNumber(words, number), material: material(words, place, number) });

  /** "the tray that reads 1,306", "each of the 3 trays that read 1,307"; what is not left over lies in the middle */
  const spot = (words, at, place, trays) => {
    if (trays) return say(words, "repair.tray", { count: trays.trays, reads: trays.reads });
    return say(words, at === "left-over" && place !== UNITS ? "repair.middle" : `repair.${at}`);
  };

  sharing.repairWords = { repairWords };
})((globalThis.sharing ??= {}));
