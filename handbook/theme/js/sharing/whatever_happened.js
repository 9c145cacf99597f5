// A repair worked out from what is read alone, whatever has happened: trays are alike and the number whole again. The
// readings say how many pieces of each place are too many or too few at each pile, also while a lesson still goes on.
"use strict";
{
  const { UNITS, digitsOf, placesHeld, downFrom, sum, at, less, withPlaces, quotientOf } = sharing.places;
  const { TEN, pileOf, inAll, roomOf } = sharing.repairMovements;
  const { MOST_MOVEMENTS, shortest } = sharing.shortest;
  const { offBy } = sharing.observations;

  /**
   * The fewest movements that make the trays alike and the number whole again. Afterwards every tray holds its share
   * or, if that takes fewer movements, what most hold so far, and the sharing goes on. Trays with the pieces of a
   * smaller ribbon are emptied and filled again. Everything is shared out again if the plan takes more than
   * MOST_MOVEMENTS, or if pieces of several places are off in all or must be changed first; from the largest place of
   * the number if the total is off.
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
    const plan = traysMadeAlike(division, seen, MOST_MOVEMENTS);
    if (plan.length && placesNotShown(plan).size <= 1) return plan;
    const wrong = trays.map(({ value, stands_for }) => highestWrong(value, quotient * stands_for));
    return [{ again: Math.max(...wrong, tooMany ? division.start.length - 1 : UNITS) }];
  };

  /** What mends trays before the wrong children, or trays that got the pieces of a smaller ribbon; null for others. */
  const ribbonsMixedUp = (division, trays, one) => {
    const changePlaces = beforeAnotherChild(division, trays, one);
    if (changePlaces) return { changePlaces };
    const [wrong, ...others] = trays.filter(({ value, stands_for }) => value !== one * stands_for);
    if (!wrong || others.length || trays.length === 1) return null;
    const isOfASmaller = wrong.stands_for > 1 && [one, TEN * one].includes(wrong.value);
    return isOfASmaller ? { refill: one * wrong.stands_for, trays: wrong } : null;
  };

  /**
   * At most `most` movements that make all trays alike, and {shareOn} if they then hold less than their share; [] if it
   * takes more.
   * @type {(division: Division, seen: Observation, most: number) => Repair}
   */
  const traysMadeAlike = (division, seen, most) => {
    const tooMany = offBy(seen, division.dividend);
    if (tooMany === null || howMany(seen.trays) !== division.sharers) return [];
    const [best] = mayHold(division, seen)
      .map((one) => ({ one, plan: planFor(division, seen, one, tooMany, most) }))
      .filter(({ plan }) => plan)
      .sort(
        (first, second) =>
          first.plan.length - second.plan.length || surelyThere(second.plan, seen) - surelyThere(first.plan, seen),
      );
    return best ? [...best.plan, ...shareOn(best.one, division.quotient)] : [];
  };

  const howMany = (trays) => sum(trays.map(({ sharers }) => sharers));

  /** What a tray for one may be made to hold: its share or, if it can be told, what most trays hold so far. */
  const mayHold = ({ quotient }, { trays }) => [quotient, ...heldSoFar(trays, quotient)];

  /**
   * The places of which a movement takes more from a tray than its digit: larger pieces must be changed first.
   * @type {(repair: Repair) => Set<number>}
   */
  const placesNotShown = (repair) => {
    const takesMore = (step) =>
      step.giving && inAll(step) / step.giving.sharers > at(digitsOf(step.giving.value), step.place);
    return new Set(repair.filter(takesMore).map(({ place }) => place));
  };

  /**
   * Whether every piece that is taken must be there, going by the digits. Of the middle that is sure of unit beads
   * alone: larger pieces may have been exchanged already.
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

  /** {shareOn} when a tray for one holds `one`; nothing when that is its share. */
  const shareOn = (one, quotient) => (one === quotient ? [] : [{ shareOn: highestWrong(one, quotient) }]);

  /**
   * How many trays stand before the wrong child, if together they hold just what all are due; otherwise 0. one: what a
   * tray for one is due.
   */
  const beforeAnotherChild = (division, trays, one) => {
    const listed = (held, worth) => String(held.flatMap((tray) => Array(tray.sharers).fill(worth(tray))).sort());
    const dueTo = ({ stands_for }) => one * stands_for;
    if (listed(division.trays(division.end), dueTo) !== listed(trays, ({ value }) => value)) return 0;
    return sum(trays.map((tray) => (tray.value === dueTo(tray) ? 0 : tray.sharers)));
  };

  /** The highest place at which two numbers have different digits; the units if there is none. */
  const highestWrong = (value, right) => {
    const [digits, due] = [digitsOf(value), digitsOf(right)];
    const places = downFrom(Math.max(digits.length, due.length));
    return places.find((place) => at(digits, place) !== at(due, place)) ?? UNITS;
  };

  /**
   * At most `most` movements after which a tray for one holds `one`, others their multiple; null if it takes more.
   * A difference in value may be read as pieces in three ways: as few pieces as possible; the same, but in the middle
   * just what trays lack; digit by digit (30 has a bar more than 21, and a bead less). The plan that moves the fewest
   * pieces is taken. Ways in which the bank would do more than change one for ten are left out.
   */
  const planFor = (division, { trays, left }, one, tooMany, most) => {
    if (placesHeld(digitsOf(Math.abs(tooMany))).length > 1) return null;
    const there = [{ value: left, sharers: 1, stands_for: 1 }, ...trays];
    const due = [division.dividend - one * division.divisor, ...trays.map(({ stands_for }) => one * stands_for)];
    const size = String(Math.max(division.dividend, Math.abs(tooMany), ...there.map(({ value }) => value))).length;
    const byValue = there.map(({ value }, pile) => piecesOf(value - due[pile], size));
    const byPlace = there.map(({ value }, pile) => less(piecesOf(value, size), piecesOf(due[pile], size)));
    const taken = (off, { sharers }, tray) => less(off, byValue[tray + 1].map((pieces) => sharers * pieces));
    const lacking = trays.reduce(taken, piecesOf(tooMany, size));
    const plans = [[lacking, ...byValue.slice(1)], byValue, byPlace].map((differs) => {
      const pile = (read, index) => readPile(index ? "tray" : "left-over", read, due[index], differs[index]);
      const [middle, ...onTrays] = there.map((read, index) => ({ pile: pile(read, index), many: read.sharers }));
      const room = roomOf(piecesOf(0, size), middle.pile, onTrays);
      const ofEach = middle.pile.off.map((_, place) => sum(room.map(({ pile, many }) => many * pile.off[place])));
      return sum(ofEach.map(Math.abs)) > TEN + 1 ? null : shortest(room, most);
    });
    const found = plans.filter((plan) => plan?.length);
    return found.sort((plan, other) => piecesMoved(plan) - piecesMoved(other))[0] ?? null;
  };

  /**
   * A pile with what is due and `off` (ten beads, where 20 is read in place of 19). Where that is more than one
   * exchange away from plain digits, it holds the digits of what is read.
   */
  const readPile = (where, { value, stands_for }, due, off) => {
    const right = piecesOf(due, off.length);
    const isNearDigits = off.every((more, place) => right[place] + more >= 0 && right[place] + more < 2 * TEN);
    return pileOf(where, isNearDigits ? right : less(piecesOf(value, off.length), off), off, stands_for);
  };

  /** A number as pieces of so many places; below zero, as many pieces fewer. */
  const piecesOf = (number, size) =>
    withPlaces(digitsOf(Math.abs(number)), size).map((pieces) => Math.sign(number) * pieces);

  /** How many pieces change their place, at all trays together; an exchange is one for ten. */
  const piecesMoved = (plan) =>
    sum(plan.map((step) => (step.exchange ? TEN + 1 : inAll(step))));

  /**
   * What most trays hold so far, for one: less than the share, and at no place more. At most one number; none also if
   * as many trays hold their whole share.
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

  sharing.whateverHappened = { byWhatIsSeen, traysMadeAlike, placesNotShown, surelyThere };
}
