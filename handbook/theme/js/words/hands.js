// What the hands do at one place of a division, in one line.
"use strict";
((sharing) => {
  const { UNITS, sum } = sharing.places;
  const { say, written } = sharing.phrases;
  const { listing, piece, pieces } = sharing.numberWords;
  const { moments, served } = sharing.stageWords;

  /**
   * What the hands do while a place is shared out, and then at the bank; the second may be nothing.
   * @type {(words: Phrases, division: Division, stage: Stage) => {sharingOut: string, atTheBank: string}}
   */
  const handsAt = (words, division, stage) => {
    const { before, later } = exchangesByTime(stage);
    const needed = moments(stage).filter((moment) => moment.rounds < stage.rounds);
    const sharingOut = [
      ...forARound(words, needed.filter((moment) => !moment.rounds)),
      ...rounds(words, division, stage, before.length > 0),
      ...forARound(words, needed.filter((moment) => moment.rounds)),
      ...takenBack(words, stage),
    ];
    const atTheBank = toBank(words, later);
    const nothingMoves = !sharingOut.length && !atTheBank.length;
    (atTheBank.length ? atTheBank : sharingOut).push(then(words, stage, nothingMoves));
    if (!stage.rounds && !isTakenBack(stage)) sharingOut.unshift(say(words, "at-place.nothing"));
    return { sharingOut: sharingOut.join(" "), atTheBank: atTheBank.join(" ") };
  };

  /**
   * The place of every piece that goes to the bank before the first round, and once none is left.
   * forARound: the places of which something is exchanged so that a round can be given out, the first to go first.
   * @type {(stage: Stage) => {before: number[], later: number[], forARound: number[]}}
   */
  const exchangesByTime = ({ steps }) => {
    const actions = steps.map(({ action }) => action);
    const roundsBegin = Math.max(actions.indexOf("deal-round"), 0);
    const roundsEnd = actions.lastIndexOf("deal-round") + 1;
    const exchanged = (some) => some.filter(({ action }) => action === "exchange").map(({ place }) => place);
    return {
      before: exchanged(steps.slice(0, roundsBegin)),
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

  /** Exchanges so that a round can be given out; where as much of a place goes before several rounds, in one line. */
  const forARound = (words, exchanges) => {
    const alike = new Map();
    for (const { place, times, rounds } of exchanges) {
      const key = `${place} ${times}`;
      if (!alike.has(key)) alike.set(key, { place, times, before: [] });
      alike.get(key).before.push(written(words.grouping, rounds + 1));
    }
    return [...alike.values()].map(({ place, times, before }) => {
      const told = { count: before.length, rounds: listing(words, before), ...gone(words, place, times) };
      return say(words, "at-place.to-bank-before-rounds", told);
    });
  };

  const toBank = (words, exchanged) =>
    [...new Set(exchanged)]
      .sort((one, other) => other - one)
      .map((place) => say(words, "at-place.to-bank", gone(words, place, exchanged.filter((each) => each === place).length)));

  /** What goes to the bank, and what comes back. */
  const gone = (words, place, times) => ({
    pieces: piece(words, times, place),
    smaller: piece(words, 10 * times, place - 1),
  });

  const then = (words, { level, end }, nothingMoves) => {
    if (!sum(end)) return say(words, nothingMoves ? "at-place.still-empty" : "at-place.empty");
    const middle = nothingMoves ? "at-place.still-middle" : "at-place.middle";
    return say(words, level === UNITS ? "at-place.left-over" : middle, { pieces: pieces(words, end) });
  };

  sharing.handsWords = { handsAt, exchangesByTime };
})((globalThis.sharing ??= {}));
