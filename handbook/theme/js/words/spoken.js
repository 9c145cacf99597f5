// What is said at one place of a division: where it begins, on the way to the bank, and at the end. Most sentences can
// be said in three ways, which are taken in turn from place to place.
"use strict";
{
  const { UNITS, sum } = sharing.places;
  const { say } = sharing.phrases;
  const { numberWords, smallNumber, placeWord, standsForWord, onePiece, saidPiece, saidPieces, listing, capital } =
    sharing.numberWords;

  const GUIDE = "guide";
  const BANKER = "bank_keeper";
  const WAYS = 3;

  /**
   * A line that somebody says. who: a key of the school's roles; made: how many movements of the place are made before.
   * @typedef {{who: string, text: string, made: number}} Said
   */

  /** @type {(division: Division) => string} what the guide says first */
  const opening = ({ dividend, divisor, sharers, ribbons }) =>
    ribbons
      ? say("guide.opening-with-ribbons", {
          dividend: numberWords(dividend),
          count: sharers,
          sharers: capital(smallNumber(sharers)),
          divisor: numberWords(divisor),
        })
      : say(dividend > 0 && dividend < 10 ? "guide.opening-of-units" : "guide.opening", {
          count: dividend,
          dividend: numberWords(dividend),
          among: say(divisor === 2 ? "guide.among-two" : "guide.among", { divisor: smallNumber(divisor) }),
        });

  /** @type {(division: Division, stage: Stage) => Said[]} guide and banker at one stage, in order */
  const saidAt = (division, stage) => saidInParts(division, stage).flat();

  /**
   * The lines of saidAt for each part of the stage. Of pieces of one place that go to the bank between rounds only the
   * first is spoken of. With ribbons pieces can be short before the first round: who gets what is said when they are
   * there.
   * @type {(division: Division, stage: Stage) => Said[][]}
   */
  const saidInParts = (division, stage) => {
    const way = ((division.stages[0].level - stage.level) % WAYS) + 1;
    const told = new Set();
    const first = Math.max(0, stage.movements.findIndex(({ action }) => action === "deal-round"));
    const whoGetsWhat = { who: GUIDE, text: beginning(division, stage, way), made: first };
    let made = 0;
    const said = stage.parts.map((part, index) => {
      const lines = index || first ? [] : [whoGetsWhat];
      for (const step of part.steps) {
        if (first && made === first) lines.push(whoGetsWhat);
        const { place } = step;
        const isLater = step.after.share[stage.level] === stage.rounds;
        const trip = `${place} ${isLater}`;
        if (step.action === "exchange" && !told.has(trip)) {
          const text = saidOf(toTheBank(stage, step, way, !told.size), place, isLater ? part.exchanged[place] : 1);
          lines.push({ who: GUIDE, text, made });
          if (!told.has(`${place} false`)) lines.push({ who: BANKER, text: saidOf(`banker.${way}`, place, 1), made });
          told.add(trip);
        }
        made += 1;
      }
      if (stage.unfinished && !part.goesOn && !part.atTheBank) lines.push(tooFew(division, stage, way));
      return lines;
    });
    // What is left over is kept apart after it.
    const atTheEnd = () => ({ who: GUIDE, text: end(division), made: made - (division.remainder ? 1 : 0) });
    if (stage.level === UNITS) said.at(-1).push(atTheEnd());
    return said;
  };

  /** What is said of a round that cannot be finished: once it is begun, or instead of it with lookFirst. */
  const tooFew = ({ lookFirst }, { roundsEnd }, way) => {
    const [key, made] = lookFirst ? ["look-first", roundsEnd] : ["take-back", roundsEnd + 1];
    return { who: GUIDE, text: say(`guide.${key}.${way}`), made };
  };

  /** The key of what is said on a trip: after the last round; with ribbons, between rounds or before the first. */
  const toTheBank = ({ level, rounds, start }, { place, after }, way, isFirst) => {
    const given = after.share[level];
    if (given === rounds) return `guide.to-bank.${way}`;
    if (given) return `guide.short.${way}`;
    if (!start[place - 1]) return "guide.at-first.none";
    return isFirst ? `guide.short-at-first.${way}` : "guide.at-first.too";
  };

  /** What the guide says where a place begins: how much there is, and who gets what. */
  const beginning = (division, stage, way) => {
    if (division.ribbons) return beginningWithRibbons(division, stage, way);
    const there = stage.start[stage.level];
    return say(`guide.${howItBegins(division, stage, way)}`, {
      count: there,
      number: numberWords(there),
      place: placeWord(stage.level),
      pieces: saidPiece(there, stage.level),
      capital_pieces: capital(saidPiece(there, stage.level)),
      children: numberWords(division.divisor),
    });
  };

  /** The end of the key of the sentence that fits what lies in the middle, in plain sharing. */
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

  const beginningWithRibbons = (division, stage, way) => {
    const widest = division.mat.length - 1;
    if (!stage.rounds && !stage.unfinished) {
      const one = onePiece(stage.level + widest);
      const key = stage.level > UNITS ? `guide.no-round.${way}` : "guide.no-round-at-the-end";
      return say(key, { one, stands_for: standsForWord(widest) });
    }
    const each = division.widths.map((width) => {
      const gets = { stands_for: standsForWord(width), piece: onePiece(stage.level + width) };
      return say(stage.rounds ? "guide.gets" : "guide.would-get", { ...gets, count: division.mat[width] });
    });
    const key = stage === division.stages[0] ? "largest-with-ribbons" : `round.${way}`;
    return say(`guide.${key}`, { each: listing(each) });
  };

  /** A sentence about so many pieces of a place that go to the bank. */
  const saidOf = (key, place, times) =>
    say(key, {
      count: times,
      pieces: capital(saidPiece(times, place)),
      one: capital(onePiece(place)),
      smaller: placeWord(place - 1),
    });

  const end = ({ end: { middle }, quotient, ribbons }) => {
    const count = sum(middle);
    if (!count) return say(ribbons ? "guide.nothing-left-over-with-ribbons" : "guide.nothing-left-over");
    const pieces = saidPieces(middle);
    if (ribbons && quotient) return say("guide.left-over-with-ribbons", { pieces });
    return say(quotient ? "guide.left-over" : "guide.all-left-over", { count, pieces: capital(pieces) });
  };

  sharing.spoken = { opening, saidAt, saidInParts };
}
