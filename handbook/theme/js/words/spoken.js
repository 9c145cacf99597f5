// What is said at one place of a division: where it begins, on the way to the bank, and at the end. Most sentences can
// be said in three ways, which are taken in turn from place to place.
"use strict";
((sharing) => {
  const { UNITS, placesHeld, sum } = sharing.places;
  const { say } = sharing.phrases;
  const { numberWords, smallNumber, placeWord, standsForWord, onePiece } = sharing.numberWords;
  const { saidPiece, saidPieces, listing, capital } = sharing.numberWords;
  const { exchangesByTime } = sharing.handsWords;

  const GUIDE = "guide";
  const BANKER = "bank_keeper";
  const WAYS = 3;

  /**
   * A line that somebody says; `who` is a key of the school's roles.
   * @typedef {{who: string, text: string}} Said
   */

  /** @type {(words: Phrases, division: Division) => string} what the guide says first */
  const opening = (words, { dividend, divisor, sharers, ribbons }) =>
    ribbons
      ? say(words, "guide.opening-with-ribbons", {
          dividend: numberWords(words, dividend),
          count: sharers,
          sharers: capital(smallNumber(words, sharers)),
          divisor: numberWords(words, divisor),
        })
      : say(words, `guide.opening${dividend > 0 && dividend < 10 ? "-of-units" : ""}${divisor === 2 ? "-for-two" : ""}`, {
          count: dividend,
          dividend: numberWords(words, dividend),
          divisor: smallNumber(words, divisor),
        });

  /** @type {(words: Phrases, division: Division, stage: Stage) => Said[]} guide and banker at one stage, in order */
  const saidAt = (words, division, stage) => {
    const way = ((division.stages[0].level - stage.level) % WAYS) + 1;
    const guide = (text) => ({ who: GUIDE, text });
    const banker = (place) => ({ who: BANKER, text: saidOf(words, `banker.${way}`, place, 1) });
    const { before, forARound, later } = exchangesByTime(stage);
    const lines = [guide(beginning(words, division, stage, way))];
    for (const place of forARound) {
      const key = before.includes(place) ? `guide.short-at-first.${way}` : `guide.short.${way}`;
      lines.push(guide(saidOf(words, key, place, 1)), banker(place));
    }
    if (stage.unfinished) lines.push(guide(say(words, `guide.${division.lookFirst ? "look-first" : "take-back"}.${way}`)));
    if (later.length) {
      lines.push(guide(saidOf(words, `guide.to-bank.${way}`, later[0], later.length)));
      if (!forARound.includes(later[0])) lines.push(banker(later[0]));
    }
    if (stage.level === UNITS) lines.push(guide(end(words, division)));
    return lines;
  };

  /** What the guide says where a place begins: how much there is, and who gets what. */
  const beginning = (words, division, stage, way) => {
    if (division.ribbons) return beginningWithRibbons(words, division, stage, way);
    const there = stage.start[stage.level];
    return say(words, `guide.${howItBegins(division, stage, way)}`, {
      count: there,
      number: numberWords(words, there),
      place: placeWord(words, stage.level),
      pieces: saidPiece(words, there, stage.level),
      capital_pieces: capital(saidPiece(words, there, stage.level)),
      children: numberWords(words, division.divisor),
    });
  };

  /** In plain sharing: which sentence fits what lies in the middle. */
  const howItBegins = (division, stage, way) => {
    const there = stage.start[stage.level];
    const laid = division.start[stage.level];
    if (!there) return stage.level > UNITS ? `nothing.${way}` : "nothing-at-the-end";
    if (stage === division.stages[0]) {
      const first = stage.level > UNITS ? "largest" : "only-units";
      return stage.rounds ? first : `${first}-too-few`;
    }
    if (!stage.rounds) return `too-few.${way}`;
    if (there === laid) return `next.${way}`;
    return laid ? `together.${way}` : "filled";
  };

  const beginningWithRibbons = (words, division, stage, way) => {
    const widest = division.mat.length - 1;
    if (!stage.rounds && !stage.unfinished) {
      const one = onePiece(words, stage.level + widest);
      return say(words, `guide.no-round.${way}`, { one, stands_for: standsForWord(words, widest) });
    }
    const each = placesHeld(division.mat).map((width) =>
      say(words, "guide.gets", { stands_for: standsForWord(words, width), piece: onePiece(words, stage.level + width) }),
    );
    const key = stage === division.stages[0] ? "largest-with-ribbons" : `round.${way}`;
    return say(words, `guide.${key}`, { each: listing(words, each) });
  };

  /** A sentence about so many pieces of a place that go to the bank. */
  const saidOf = (words, key, place, times) =>
    say(words, key, {
      count: times,
      pieces: capital(saidPiece(words, times, place)),
      one: capital(onePiece(words, place)),
      smaller: placeWord(words, place - 1),
    });

  const end = (words, { end: { middle }, quotient, ribbons }) => {
    const count = sum(middle);
    if (!count) return say(words, ribbons ? "guide.nothing-left-over-with-ribbons" : "guide.nothing-left-over");
    const left = { count, pieces: capital(saidPieces(words, middle)) };
    return say(words, quotient ? "guide.left-over" : "guide.all-left-over", left);
  };

  sharing.spoken = { GUIDE, opening, saidAt };
})((globalThis.sharing ??= {}));
