// What the hands do at one place of a division, in one line.
"use strict";
((sharing) => {
  const { UNITS, sum } = sharing.places;
  const { say } = sharing.phrases;
  const { piece, pieces } = sharing.numberWords;
  const { served } = sharing.stageWords;

  /**
   * What the hands do while a place is shared out, and then at the bank; the second may be nothing.
   * @type {(words: Phrases, division: Division, stage: Stage) => {sharingOut: string, atTheBank: string}}
   */
  const handsAt = (words, division, stage) => {
    const { between, later } = exchangesByTime(stage);
    const sharingOut = [
      ...rounds(words, division, stage),
      ...toBank(words, "at-place.to-bank-between-rounds", between),
      ...takenBack(words, stage),
    ];
    const atTheBank = toBank(words, "at-place.to-bank", later);
    (atTheBank.length ? atTheBank : sharingOut).push(then(words, stage));
    return { sharingOut: sharingOut.join(" "), atTheBank: atTheBank.join(" ") };
  };

  /**
   * The place of every piece that goes to the bank for a round to come, and of every one once no round is left.
   * @type {(stage: Stage) => {between: number[], later: number[]}}
   */
  const exchangesByTime = ({ steps }) => {
    const roundsEnd = steps.map(({ action }) => action).lastIndexOf("deal-round") + 1;
    const exchanged = (some) => some.filter(({ action }) => action === "exchange").map(({ place }) => place);
    return { between: exchanged(steps.slice(0, roundsEnd)), later: exchanged(steps.slice(roundsEnd)) };
  };

  const rounds = (words, division, stage) => {
    if (!stage.rounds) return [];
    const count = stage.rounds;
    if (!division.ribbons) return [say(words, "at-place.rounds", { count, pieces: piece(words, count, stage.level) })];
    return [say(words, "at-place.rounds-with-ribbons", { count, pieces: served(words, stage.level, division) })];
  };

  const takenBack = (words, stage) =>
    stage.steps.some(({ action }) => action === "take-back")
      ? [say(words, stage.rounds ? "at-place.next-taken-back" : "at-place.taken-back")]
      : [];

  const toBank = (words, key, exchanged) =>
    [...new Set(exchanged)]
      .sort((one, other) => other - one)
      .map((place) => {
        const times = exchanged.filter((each) => each === place).length;
        return say(words, key, { pieces: piece(words, times, place), smaller: piece(words, 10 * times, place - 1) });
      });

  const then = (words, { level, end }) => {
    const lies = level === UNITS ? "at-place.left-over" : "at-place.middle";
    return say(words, sum(end) ? lies : "at-place.empty", { pieces: pieces(words, end) });
  };

  sharing.handsWords = { handsAt, exchangesByTime };
})((globalThis.sharing ??= {}));
