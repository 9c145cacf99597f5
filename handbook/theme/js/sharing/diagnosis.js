// Reading back from what the room sees at the close to the single slips that explain it.
"use strict";
{
  const { UNITS, compare, sum, at, downFrom, placeName } = sharing.places;
  const { workOut } = sharing.division;
  const { readings, beadsOn, asText, agree, isFair, offBy } = sharing.observations;
  const { SLIPS } = sharing.slips;
  const { simulate } = sharing.outcomes;
  const { repair, easier } = sharing.repairs;
  const { placesNotShown } = sharing.whateverHappened;

  /**
   * One slip at one place that needs one repair, and every occasion at which it leads to what is seen, in order.
   * told: what people are told to do, easier to follow where the repair is not.
   * @typedef {{slip: string, place: number | null, occasions: Occasion[], repair: Repair, told: Repair}} Cause
   */

  /**
   * consistent: what is seen is the right result; causes: every single slip that leads to it, likeliest first.
   * @typedef {{division: Division, ribbons: boolean, seen: Observation, consistent: boolean, causes: Cause[]}}
   *   Diagnosis
   */

  /**
   * For one division: which single slips lead to exactly what is seen, and what puts each right. trays: what is read on
   * every tray, in any order, and whom it is for; left: what is left over, null where it was not counted.
   * @type {(dividend: number, divisor: number, ribbons: boolean) =>
   *   (trays: {value: number, stands_for: number}[], left: number | null) => Diagnosis}
   */
  const diagnoser = (dividend, divisor, ribbons) => {
    const division = workOut(dividend, divisor, { ribbons });
    const right = rightObservation(division);
    let outcomes = null;
    return (trays, left) => {
      const seen = { trays: readings(trays.map((tray) => ({ ...tray, sharers: 1 }))), left };
      const consistent = agree(seen, right);
      let causes = [];
      if (!consistent && Math.abs(trays.length - division.sharers) <= 1) {
        outcomes ??= simulate(division);
        causes = causesOf(division, outcomes.filter((outcome) => agree(seen, outcome.seen)));
      }
      return { division, ribbons, seen, consistent, causes };
    };
  };

  /**
   * Whether nothing is wrong yet: all is there, the trays are fair, and what is left can still go round.
   * @type {(diagnosis: {division: Division, seen: Observation}) => boolean}
   */
  const isToShareOn = ({ division, seen }) => {
    const isWhole =
      sum(seen.trays.map(({ sharers }) => sharers)) === division.sharers && offBy(seen, division.dividend) === 0;
    return isWhole && isFair(seen) && seen.left >= division.divisor;
  };

  /** @type {(division: Division) => Observation} what is seen at the close where nothing went wrong */
  const rightObservation = (division) => ({ trays: beadsOn(division.trays(division.end)), left: division.remainder });

  /**
   * The symptoms most worth knowing for one division; what leaves no trace is left out. One for each slip, the
   * likeliest slip first, eight at most: the one to which everybody going on by the rules leads, that the fewest other
   * slips leave too and, among those, the one on most trays and of the smallest pieces. A slip that an earlier symptom
   * names has its own only if there is room to spare. shelf: what it could not show is left out, but for kinds of which
   * the sharing needs more. Repairs take longest, so the causes of a symptom are worked out when its turn comes.
   * @type {(division: Division, shelf?: Shelf | null) =>
   *   Generator<{seen: Observation, left: Counts, offBy: number, causes: Cause[]}>}
   */
  function* tellingSlips(division, shelf = null) {
    const best = mostTelling(toldApart(division, shelf), division);
    const chosen = [];
    const named = new Set();
    for (const [slip, symptom] of best) {
      if (named.has(slip)) continue;
      chosen.push(symptom);
      symptom.slips.forEach((one) => named.add(one));
    }
    const spare = [...new Set(best.values())].filter((symptom) => !chosen.includes(symptom));
    for (const { seen, outcomes } of [...chosen, ...spare].slice(0, 8)) {
      const [{ left }] = outcomes;
      yield { seen, left, offBy: offBy(seen, division.dividend), causes: causesOf(division, outcomes) };
    }
  }

  /** Outcomes of single slips by what is seen, but for those that are not seen or cannot be shown with the shelf. */
  const toldApart = (division, shelf) => {
    const symptoms = new Map();
    const shown = simulate(division).filter(
      (outcome) =>
        !isForDiagnosisAlone(outcome.occasion) && (!shelf || canBeShown(outcome, shelf, division.piecesNeeded)),
    );
    for (const outcome of shown) {
      const key = asText(outcome.seen);
      if (!symptoms.has(key)) symptoms.set(key, { seen: outcome.seen, outcomes: [], slips: new Set() });
      symptoms.get(key).outcomes.push(outcome);
      symptoms.get(key).slips.add(outcome.occasion.slip);
    }
    symptoms.delete(asText(rightObservation(division)));
    return [...symptoms.values()];
  };

  /** What shows each slip best, the likeliest slip first. */
  const mostTelling = (symptoms, division) => {
    const inFull = new Map();
    for (const { occasion } of symptoms.flatMap(({ outcomes }) => outcomes)) {
      inFull.set(kindOf(occasion), Math.max(occasion.many, inFull.get(kindOf(occasion)) ?? 0));
    }
    const best = new Map();
    for (const slip of SLIPS) {
      const [first] = symptoms
        .filter(({ slips }) => slips.has(slip))
        .map((symptom) => ({ symptom, rank: howTelling(slip, symptom, inFull, division) }))
        .sort((one, other) => compare(one.rank, other.rank));
      if (first) best.set(slip, first.symptom);
    }
    return best;
  };

  const kindOf = ({ slip, place }) => `${slip} ${place}`;

  /**
   * The smaller, the more telling a symptom is for a slip. It is least so where more happens than the slip: where of
   * the pieces that were dealt only some stay (inFull: how many do where all stay), or where pieces passed over do not
   * end as everybody would leave them.
   */
  const howTelling = (slip, { outcomes, slips }, inFull, division) => {
    const occasions = outcomes.map(({ occasion }) => occasion).filter((occasion) => occasion.slip === slip);
    const goesOn = occasions.some(
      (occasion) => occasion.many === inFull.get(kindOf(occasion)) && endsAsExpected(occasion, division),
    );
    const [[place, less]] = occasions.map((occasion) => [occasion.place ?? 0, -occasion.many]).sort(compare);
    return [goesOn ? 0 : 1, slips.size, less, place];
  };

  /** A symptom tells what is read on trays, which no child without one has; who gets less in every round is seen. */
  const isForDiagnosisAlone = ({ slip, spot }) =>
    (slip === "tray-too-few" && spot === "every-child") || (slip === "ribbon-given-same-kind" && spot === null);

  /** Pieces passed over do not lie there where they could go round; they go to the bank where others do, or lie. */
  const endsAsExpected = ({ slip, spot, place, many }, division) => {
    if (slip === "none-of-a-place" && (spot === null || many >= division.sharers)) return spot === null;
    if (!["child-skipped", "none-of-a-place"].includes(slip) || place === UNITS) return true;
    return (spot === "left-over") === !division.exchanges;
  };

  /** Whether on trays and left over no more of a place lies than the shelf has, or the sharing needs all the same. */
  const canBeShown = ({ trays, left }, shelf, needed) => {
    const held = [...trays.map(({ holds, sharers }) => [holds, sharers]), [left, 1]];
    return downFrom(Math.max(...held.map(([pieces]) => pieces.length))).every((place) => {
      const there = sum(held.map(([pieces, many]) => many * at(pieces, place)));
      return there <= Math.max(shelf[placeName(place)] ?? 0, at(needed, place));
    });
  };

  /**
   * One cause for each slip at each place that needs a repair of its own, likeliest first; last those of whose pieces
   * the digits of the trays show too few.
   */
  const causesOf = (division, outcomes) => {
    const together = new Map();
    for (const outcome of outcomes) {
      const { occasion } = outcome;
      const mends = repair(division, outcome);
      const key = JSON.stringify([occasion.slip, occasion.place, mends]);
      if (!together.has(key)) {
        const { slip, place } = occasion;
        const told = easier(division, outcome, mends);
        together.set(key, { slip, place, occasions: new Map(), repair: mends, told });
      }
      together.get(key).occasions.set(JSON.stringify(occasion), occasion);
    }
    const rank = (cause) => [placesNotShown(cause.told).size ? 1 : 0, SLIPS.indexOf(cause.slip), cause.place ?? 0];
    return [...together.values()]
      .map((cause) => ({ ...cause, occasions: [...cause.occasions.values()] }))
      .sort((one, other) => compare(rank(one), rank(other)));
  };

  sharing.diagnosis = { diagnoser, isToShareOn, rightObservation, tellingSlips };
}
