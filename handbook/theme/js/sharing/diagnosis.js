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
   * advice: the repair, or an easier one where children could not follow it.
   * @typedef {{slip: string, place: number | null, occasions: Occasion[], repair: Repair, advice: Repair}} Cause
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
   * The symptoms most worth knowing for one division, eight at most; slips that leave no trace are left out. Every slip
   * has the symptom that shows it best (`howTelling`), the likeliest slip first. If an earlier symptom has that slip
   * among its causes already, it comes after all others. shelf: symptoms that it cannot show are left out, unless the
   * sharing itself needs more. Repairs take longest, so the causes of a symptom are worked out when its turn comes.
   * @type {(division: Division, shelf?: Shelf | null) =>
   *   Generator<{seen: Observation, left: Counts, offBy: number, causes: Cause[]}>}
   */
  function* tellingSlips(division, shelf = null) {
    const best = mostTelling(byObservation(division, shelf), division);
    const chosen = [];
    const covered = new Set();
    for (const [slip, symptom] of best) {
      if (covered.has(slip)) continue;
      chosen.push(symptom);
      symptom.slips.forEach((one) => covered.add(one));
    }
    const spare = [...new Set(best.values())].filter((symptom) => !chosen.includes(symptom));
    for (const { seen, outcomes } of [...chosen, ...spare].slice(0, 8)) {
      const [{ left }] = outcomes;
      yield { seen, left, offBy: offBy(seen, division.dividend), causes: causesOf(division, outcomes) };
    }
  }

  /** The outcomes of single slips by what is seen, without those that look right or that the shelf cannot show. */
  const byObservation = (division, shelf) => {
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

  /** The symptom that shows each slip best, the likeliest slip first. */
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
   * A sort key: the smaller, the better a symptom shows a slip. First come those to which people get by the rules after
   * the slip: all pieces dealt stay (inFull says how many that are), and pieces passed over end as expected. Then the
   * fewest other slips, most trays, smallest pieces.
   */
  const howTelling = (slip, { outcomes, slips }, inFull, division) => {
    const occasions = outcomes.map(({ occasion }) => occasion).filter((occasion) => occasion.slip === slip);
    const goesOn = occasions.some(
      (occasion) => occasion.many === inFull.get(kindOf(occasion)) && endsAsExpected(occasion, division),
    );
    const [[place, less]] = occasions.map((occasion) => [occasion.place ?? 0, -occasion.many]).sort(compare);
    return [goesOn ? 0 : 1, slips.size, less, place];
  };

  /** Not for symptoms: a child without a tray has nothing to read, and a wrong kind in every round is noticed. */
  const isForDiagnosisAlone = ({ slip, spot }) =>
    (slip === "tray-too-few" && spot === "every-child") || (slip === "ribbon-given-same-kind" && spot === null);

  /**
   * Whether pieces passed over end as people would leave them. Enough of them for a round are dealt to the others.
   * Fewer go to the bank if the division has exchanges, and otherwise lie in the middle to the end.
   */
  const endsAsExpected = ({ slip, spot, place, many }, division) => {
    if (slip === "none-of-a-place" && (spot === null || many >= division.sharers)) return spot === null;
    if (!["child-skipped", "none-of-a-place"].includes(slip) || place === UNITS) return true;
    return (spot === "left-over") === !division.exchanges;
  };

  /** Whether trays and middle hold no more pieces of a place than the shelf has, or than the sharing itself needs. */
  const canBeShown = ({ trays, left }, shelf, needed) => {
    const held = [...trays.map(({ holds, sharers }) => [holds, sharers]), [left, 1]];
    return downFrom(Math.max(...held.map(([pieces]) => pieces.length))).every((place) => {
      const there = sum(held.map(([pieces, many]) => many * at(pieces, place)));
      return there <= Math.max(shelf[placeName(place)] ?? 0, at(needed, place));
    });
  };

  /**
   * One cause for each combination of slip, place and repair, likeliest first; those that suppose ten of a kind on a
   * tray (`placesNotShown`) come last, because people would have noticed these.
   */
  const causesOf = (division, outcomes) => {
    const together = new Map();
    for (const outcome of outcomes) {
      const { occasion } = outcome;
      const mends = repair(division, outcome);
      const key = JSON.stringify([occasion.slip, occasion.place, mends]);
      if (!together.has(key)) {
        const { slip, place } = occasion;
        const advice = easier(division, outcome, mends);
        together.set(key, { slip, place, occasions: new Map(), repair: mends, advice });
      }
      together.get(key).occasions.set(JSON.stringify(occasion), occasion);
    }
    const rank = (cause) => [placesNotShown(cause.advice).size ? 1 : 0, SLIPS.indexOf(cause.slip), cause.place ?? 0];
    return [...together.values()]
      .map((cause) => ({ ...cause, occasions: [...cause.occasions.values()] }))
      .sort((one, other) => compare(rank(one), rank(other)));
  };

  sharing.diagnosis = { diagnoser, isToShareOn, rightObservation, tellingSlips };
}
