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
    const { before, between, later } = exchangesByTime(stage);
    const sharingOut = [
      ...toBank(words, "at-place.to-bank-before-rounds", before),
      ...rounds(words, division, stage, before.length > 0),
      ...toBank(words, "at-place.to-bank-between-rounds", between),
      ...takenBack(words, stage),
    ];
    const atTheBank = toBank(words, "at-place.to-bank", later);
    const nothingMoves = !sharingOut.length && !atTheBank.length;
    (atTheBank.length ? atTheBank : sharingOut).push(then(words, stage, nothingMoves));
    if (!stage.rounds && !isTakenBack(stage)) sharingOut.unshift(say(words, "at-place.nothing"));
    return { sharingOut: sharingOut.join(" "), atTheBank: atTheBank.join(" ") };
  };

  /**
   * The place of every piece that goes to the bank before the first round, between rounds, and once none is left.
   * forARound: the places of which something is exchanged so that a round can be given out, the first to go first.
   * @type {(stage: Stage) => {before: number[], between: number[], later: number[], forARound: number[]}}
   */
  const exchangesByTime = ({ steps }) => {
    const actions = steps.map(({ action }) => action);
    const roundsBegin = Math.max(actions.indexOf("deal-round"), 0);
    const roundsEnd = actions.lastIndexOf("deal-round") + 1;
    const exchanged = (some) => some.filter(({ action }) => action === "exchange").map(({ place }) => place);
    return {
      before: exchanged(steps.slice(0, roundsBegin)),
      between: exchanged(steps.slice(roundsBegin, roundsEnd)),
      later: exchanged(steps.slice(roundsEnd)),
      forARound: [...new Set(exchanged(steps.slice(0, roundsEnd)))],
    };
  };

  const rounds = (words, division, stage, afterTheBank) => {
    if (!stage.rounds) return [];
    const count = stage.rounds;
    if (!division.ribbons) return [say(words, "at-place.rounds", { count, pieces: piece(words, count, stage.level) })];
    const key = afterTheBank ? "at-place.then-rounds-with-ribbons" : "at-place.rounds-with-ribbons";
    return [say(words, key, { count, pieces: served(words, stage.level, division) })];
  };

  const takenBack = (words, stage) =>
    isTakenBack(stage) ? [say(words, stage.rounds ? "at-place.next-taken-back" : "at-place.taken-back")] : [];

  const isTakenBack = ({ steps }) => steps.some(({ action }) => action === "take-back");

  const toBank = (words, key, exchanged) =>
    [...new Set(exchanged)]
      .sort((one, other) => other - one)
      .map((place) => {
        const times = exchanged.filter((each) => each === place).length;
        return say(words, key, { pieces: piece(words, times, place), smaller: piece(words, 10 * times, place - 1) });
      });

  const then = (words, { level, end }, nothingMoves) => {
    if (!sum(end)) return say(words, nothingMoves ? "at-place.still-empty" : "at-place.empty");
    const middle = nothingMoves ? "at-place.still-middle" : "at-place.middle";
    return say(words, level === UNITS ? "at-place.left-over" : middle, { pieces: pieces(words, end) });
  };

  sharing.handsWords = { handsAt, exchangesByTime };
})((globalThis.sharing ??= {}));
