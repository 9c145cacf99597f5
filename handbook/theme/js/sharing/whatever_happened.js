// What makes the trays alike and the number whole again, told from what is read alone: whatever has happened. What is
// read tells how many pieces of each place lie where they should not, also while the lesson goes on.
"use strict";
{
  const { UNITS, digitsOf, placesHeld, downFrom, sum, at, less, withPlaces, quotientOf } = sharing.places;
  const { TEN, pileOf, inAll, roomOf } = sharing.repairMovements;
  const { MOST_MOVEMENTS, shortest } = sharing.shortest;
  const { offBy } = sharing.observations;

  /**
   * The fewest movements that make the trays alike and the number whole, whatever has happened. Every tray should then
   * hold its share, or, where that is fewer movements, what most hold so far: then the sharing goes on. Where one
   * ribbon was given the pieces of a smaller one, its trays are filled like the others. Where pieces of several places
   * are too many or too few in all or would have to be changed for first, or where it takes more than MOST_MOVEMENTS,
   * it is shared out again, from the largest place of the number if pieces are too many or too few.
   * @type {(division: Division, seen: Observation) => Repair}
   */
  const byWhatIsSeen = (division, seen) => {
    const { trays } = seen;
    const { quotient, sharers } = division;
    const tooMany = offBy(seen, division.dividend);
    if (tooMany === 0 && howMany(trays) === sharers) {
      for (const one of mayHold(division, seen)) {
        const mixedUp = ribbonsMixedUp(division, trays, one);
        if (mixedUp) return [mixedUp, ...shareOn(one, quotient)];
      }
    }
    const plan = inMovements(division, seen, MOST_MOVEMENTS);
    if (plan.length && placesNotShown(plan).size <= 1) return plan;
    const wrong = trays.map(({ value, stands_for }) => highestWrong(value, quotient * stands_for));
    return [{ again: Math.max(...wrong, tooMany ? division.start.length - 1 : UNITS) }];
  };

  /** What mends trays that stand before other children, or those of one ribbon with the pieces of a smaller one. */
  const ribbonsMixedUp = (division, trays, one) => {
    const changePlaces = beforeAnotherChild(division, trays, one);
    if (changePlaces) return { changePlaces };
    const [wrong, ...others] = trays.filter(({ value, stands_for }) => value !== one * stands_for);
    if (!wrong || others.length || trays.length === 1) return null;
    const isOfASmaller = wrong.stands_for > 1 && [one, TEN * one].includes(wrong.value);
    return isOfASmaller ? { refill: one * wrong.stands_for, trays: wrong } : null;
  };

  /**
   * No more than so many movements after which all trays hold the same, and sharing on if that is less than a share;
   * nothing if it takes more.
   * @type {(division: Division, seen: Observation, most: number) => Repair}
   */
  const inMovements = (division, seen, most) => {
    const tooMany = offBy(seen, division.dividend);
    if (tooMany === null || howMany(seen.trays) !== division.sharers) return [];
    const [best] = mayHold(division, seen)
      .map((one) => ({ one, plan: allAlike(division, seen, one, tooMany, most) }))
      .filter(({ plan }) => plan)
      .sort(
        (first, second) =>
          first.plan.length - second.plan.length || surelyThere(second.plan, seen) - surelyThere(first.plan, seen),
      );
    return best ? [...best.plan, ...shareOn(best.one, division.quotient)] : [];
  };

  const howMany = (trays) => sum(trays.map(({ sharers }) => sharers));

  /** What a tray for one may be made to hold: its share, or what most hold so far. */
  const mayHold = ({ quotient }, { trays }) => [quotient, ...heldSoFar(trays, quotient)];

  /**
   * The places of which a movement takes more from a tray than its digit shows: others must be changed for them.
   * @type {(repair: Repair) => Set<number>}
   */
  const placesNotShown = (repair) => {
    const takesMore = (step) =>
      step.giving && inAll(step) / step.giving.sharers > at(digitsOf(step.giving.value), step.place);
    return new Set(repair.filter(takesMore).map(({ place }) => place));
  };

  /**
   * Whether the digits show all pieces that are taken, and none must be changed; larger ones in the middle may have
   * been changed already.
   * @type {(repair: Repair, seen: Observation) => boolean}
   */
  const surelyThere = (repair, { left }) => {
    if (placesNotShown(repair).size) return false;
    let units = (left ?? 0) % TEN;
    return repair.every((step) => {
      const { place, source, target } = step;
      if ("exchange" in step || "refill" in step) return false;
      if (!source) return true;
      const pieces = inAll(step);
      if (place === UNITS) units += pieces * ((target === "left-over") - (source === "left-over"));
      return units >= 0 && (place === UNITS || source !== "left-over");
    });
  };

  /** What is still to do when a tray for one holds `one`. */
  const shareOn = (one, quotient) => (one === quotient ? [] : [{ shareOn: highestWrong(one, quotient) }]);

  /** How many trays hold what another ribbon is due, where one is due `one` and all trays that are due are there. */
  const beforeAnotherChild = (division, trays, one) => {
    const listed = (held, worth) => String(held.flatMap((tray) => Array(tray.sharers).fill(worth(tray))).sort());
    const dueTo = ({ stands_for }) => one * stands_for;
    if (listed(division.trays(division.end), dueTo) !== listed(trays, ({ value }) => value)) return 0;
    return sum(trays.map((tray) => (tray.value === dueTo(tray) ? 0 : tray.sharers)));
  };

  /** The highest place with another digit than it should have; the units if there is none. */
  const highestWrong = (value, right) => {
    const [digits, due] = [digitsOf(value), digitsOf(right)];
    const places = downFrom(Math.max(digits.length, due.length));
    return places.find((place) => at(digits, place) !== at(due, place)) ?? UNITS;
  };

  /**
   * The easiest movements after which a tray for one holds `one`, and the others accordingly; null if it takes more
   * than so many.
   * What differs is taken for as few pieces as can be, in the middle also for just those that the trays lack; or place
   * by place (30 has a bar more than 21, and a bead less): the plan counts that moves the fewest pieces. What lies
   * there is what should, and what differs (ten beads where 20 are read in place of 19), or as the digits say if that
   * is not by one change. The bank has no more to do than to change one for ten.
   */
  const allAlike = (division, { trays, left }, one, tooMany, most) => {
    if (placesHeld(digitsOf(Math.abs(tooMany))).length > 1) return null;
    const largest = Math.max(division.dividend, left, Math.abs(tooMany), ...trays.map(({ value }) => value));
    const size = String(largest).length;
    const piecesOf = (number) =>
      withPlaces(digitsOf(Math.abs(number)), size).map((pieces) => Math.sign(number) * pieces);
    const byValue = (there, due) => piecesOf(there - due);
    const byPlace = (there, due) => less(piecesOf(there), piecesOf(due));
    const planFor = ([offOf, offInTheMiddle]) => {
      const onTrays = trays.map((tray) => ({ ...tray, off: offOf(tray.value, one * tray.stands_for) }));
      const takenFor = (pieces, place) => pieces - sum(onTrays.map(({ sharers, off }) => sharers * off[place]));
      const due = division.dividend - one * division.divisor;
      const inTheMiddle = offInTheMiddle ? offInTheMiddle(left, due) : piecesOf(tooMany).map(takenFor);
      const pile = (where, value, right, off, stands_for) => {
        const there = piecesOf(right).map((pieces, place) => pieces + off[place]);
        const isByOneChange = there.every((pieces) => pieces >= 0 && pieces < 2 * TEN);
        return pileOf(where, isByOneChange ? piecesOf(right) : less(piecesOf(value), off), off, stands_for);
      };
      const piles = onTrays.map(({ value, off, sharers, stands_for }) => ({
        pile: pile("tray", value, one * stands_for, off, stands_for),
        many: sharers,
      }));
      const room = roomOf(piecesOf(0), pile("left-over", left, due, inTheMiddle), piles);
      const ofEach = piecesOf(0).map((_, place) => Math.abs(sum(room.map(({ pile, many }) => many * pile.off[place]))));
      return sum(ofEach) > TEN + 1 ? null : shortest(room, most);
    };
    const plans = [[byValue], [byValue, byValue], [byPlace, byPlace]].map(planFor).filter((plan) => plan?.length);
    return plans.sort((plan, other) => piecesMoved(plan) - piecesMoved(other))[0] ?? null;
  };

  /** How many pieces change their place, at all trays together; an exchange is one for ten. */
  const piecesMoved = (plan) =>
    sum(plan.map((step) => (step.exchange ? TEN + 1 : inAll(step))));

  /**
   * What most trays hold, for one, of what is less than the share and at no place more; nothing if none does, or where
   * as many hold their share.
   */
  const heldSoFar = (trays, share) => {
    const held = trays.flatMap(({ value, stands_for, sharers }) => Array(sharers).fill(quotientOf(value, stands_for)));
    const times = (value) => held.filter((other) => other === value).length;
    return [...new Set(held)]
      .filter((one) => one < share && times(one) > times(share))
      .filter((one) => digitsOf(one).every((pieces, place) => pieces <= at(digitsOf(share), place)))
      .sort((one, other) => times(other) - times(one) || one - other)
      .slice(0, 1);
  };

  sharing.whateverHappened = { byWhatIsSeen, inMovements, placesNotShown, surelyThere };
}
