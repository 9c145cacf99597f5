// What puts a room right again after a slip: the fewest movements, or sharing out again from one place down. A repair
// leads from what a slip left behind to the right pieces on every tray and left over, an empty floor and a whole bank.
"use strict";
{
  const { UNITS, digitsOf, placesHeld, downFrom, sum, at, plus, less, quotientOf } = sharing.places;
  const { TEN, pileOf, holds, reads, withMore, together } = sharing.movements;
  const { shortest } = sharing.shortest;
  const { offBy } = sharing.observations;

  const MOST_MOVEMENTS = 4;
  const PLENTY = 10 ** 6;

  /** @type {(division: Division, outcome: Outcome) => Repair} nothing where all pieces lie right, as with cards */
  const repair = (division, outcome) => {
    const { slip } = outcome.occasion;
    if (slip === "tray-too-few" || slip === "tray-too-many") return withTheRightTrays(division, outcome);
    const room = leftBehind(division, outcome);
    return shortest(room, MOST_MOVEMENTS) ?? fromOnePlaceDown(room, outcome.occasion);
  };

  /**
   * Sharing out again from one place down, where children could not follow the fewest movements: where trays give
   * pieces of several places to the bank or get them from there. Where a round that did not go round lies on trays, it
   * comes back, and they share on.
   * @type {(division: Division, outcome: Outcome, fewest: Repair) => Repair | null}
   */
  const easier = (division, outcome, fewest) => {
    const movements = fewest.filter(({ giving, taking }) => giving || taking);
    const isEasy =
      new Set(movements.map(({ place }) => place)).size < 2 ||
      movements.every(({ source, target }) => source !== "bank" && target !== "bank");
    const told = isEasy ? fewest : fromOnePlaceDown(leftBehind(division, outcome), outcome.occasion);
    const easiest = (told.some((step) => "again" in step) && backAndOn(division, outcome)) || told;
    return easiest === fewest ? null : easiest;
  };

  /** The one movement to the middle after which all trays have as much and the sharing goes on; null if none is. */
  const backAndOn = (division, { seen, trays }) => {
    const isRead = trays.every((tray) => Math.max(...tray.holds) < TEN);
    if (!isRead || division.ribbons || offBy(seen, division.dividend)) return null;
    const repair = byWhatIsSeen(division, seen);
    const [back, shareOn] = repair;
    const isBackAndOn = back.source === "tray" && back.target === "left-over" && shareOn && "shareOn" in shareOn;
    return isBackAndOn ? repair : null;
  };

  /**
   * The fewest movements that make the trays alike and the number whole, whatever has happened. Every tray should then
   * hold its share, or, where that is fewer movements, what most hold so far: then the sharing goes on. Where pieces of
   * several places are too many or too few in all, or where it takes more than MOST_MOVEMENTS, it is shared out again,
   * afresh if pieces are too many or too few.
   * @type {(division: Division, seen: Observation) => Repair}
   */
  const byWhatIsSeen = (division, seen) => {
    const { trays } = seen;
    const { quotient, sharers: due } = division;
    const tooMany = offBy(seen, division.dividend);
    if (tooMany !== null && sum(trays.map(({ sharers }) => sharers)) === due) {
      const values = [quotient, ...heldSoFar(trays, quotient)];
      for (const one of tooMany ? [] : values) {
        const changePlaces = beforeAnotherChild(division, trays, one);
        if (changePlaces) return [{ changePlaces }, ...shareOn(one, quotient)];
      }
      const [best] = values
        .map((one) => ({ one, plan: allAlike(division, seen, one, tooMany) }))
        .filter(({ plan }) => plan)
        .sort((first, second) => first.plan.length - second.plan.length);
      if (best) return [...best.plan, ...shareOn(best.one, quotient)];
    }
    const place = Math.max(...trays.map(({ value, stands_for }) => highestWrong(value, quotient * stands_for)));
    const again = againFrom(place, division.trays(division.end).map(({ holds }) => holds));
    return [{ ...again, everything: again.everything || Boolean(tooMany) }];
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
   * The easiest movements after which a tray for one holds `one`, and the others accordingly; null if none are few.
   * What differs is taken for as few beads as can be, or place by place (30 has a bar more than 21, and a bead less):
   * of both the plan counts that moves fewer pieces. No more are taken than lie there, as the digits say, and place by
   * place the bank has no more to do than to change one for ten.
   */
  const allAlike = (division, { trays, left }, one, tooMany) => {
    if (placesHeld(digitsOf(Math.abs(tooMany))).length > 1) return null;
    const largest = Math.max(division.dividend, left, Math.abs(tooMany), ...trays.map(({ value }) => value));
    const size = String(largest).length;
    const piecesOf = (number) => {
      const digits = digitsOf(Math.abs(number));
      return Array.from({ length: size }, (_, place) => Math.sign(number) * at(digits, place));
    };
    const inAll = (there, due) => piecesOf(there - due);
    const byPlace = (there, due) => less(piecesOf(there), piecesOf(due));
    const planFor = (offOf) => {
      const onTrays = trays.map((tray) => ({ ...tray, off: offOf(tray.value, one * tray.stands_for) }));
      const takenFor = (pieces, place) => pieces - sum(onTrays.map(({ sharers, off }) => sharers * off[place]));
      const due = division.dividend - one * division.divisor;
      const inTheMiddle = offOf === byPlace ? byPlace(left, due) : piecesOf(tooMany).map(takenFor);
      const pile = (where, value, off, stands_for) => pileOf(where, less(piecesOf(value), off), off, stands_for);
      const piles = onTrays.map(({ value, off, sharers, stands_for }) => ({
        pile: pile("tray", value, off, stands_for),
        many: sharers,
      }));
      const room = roomOf(piecesOf(0), pile("left-over", left, inTheMiddle), piles);
      const ofEach = piecesOf(0).map((_, place) => Math.abs(sum(room.map(({ pile, many }) => many * pile.off[place]))));
      return offOf === byPlace && sum(ofEach) > TEN + 1 ? null : shortest(room, MOST_MOVEMENTS);
    };
    const plans = [inAll, byPlace].map(planFor).filter((plan) => plan?.length);
    return plans.sort((plan, other) => piecesMoved(plan) - piecesMoved(other))[0] ?? null;
  };

  /** How many pieces change their place, at all trays together; an exchange is one for ten. */
  const piecesMoved = (plan) =>
    sum(
      plan.map((step) =>
        step.exchange ? TEN + 1 : step.pieces * Math.max(step.giving?.trays ?? 1, step.taking?.trays ?? 1),
      ),
    );

  /** What most trays hold, for one, of what is less than the share and at no place more; nothing if none does. */
  const heldSoFar = (trays, share) => {
    const held = trays.flatMap(({ value, stands_for, sharers }) => Array(sharers).fill(quotientOf(value, stands_for)));
    const times = (value) => held.filter((other) => other === value).length;
    return [...new Set(held)]
      .filter((one) => one < share && digitsOf(one).every((pieces, place) => pieces <= at(digitsOf(share), place)))
      .sort((one, other) => times(other) - times(one) || one - other)
      .slice(0, 1);
  };

  /** @type {(division: Division, outcome: Outcome) => Room} */
  const leftBehind = (division, { occasion, trays, left }) => {
    const size = Math.max(division.start.length, left.length, ...trays.map((tray) => tray.holds.length));
    const filled = (pieces) => Array.from({ length: size }, (_, place) => pieces[place] ?? 0);
    const pile = (at, right, there, stands_for = 1) => {
      const full = filled(right);
      return pileOf(at, full, filled(there).map((pieces, place) => pieces - full[place]), stands_for);
    };
    const due = Object.fromEntries(division.trays(division.end).map((tray) => [tray.stands_for, tray.holds]));
    const rolled = occasion.slip === "piece-rolled-away" ? occasion.place : null;
    const piles = trays.map((tray) => ({
      pile: pile("tray", due[tray.stands_for], tray.holds, tray.stands_for),
      many: tray.sharers,
    }));
    return roomOf(plus(filled([]), rolled, 1), pile("left-over", division.end.middle, left), piles);
  };

  /** What lies on the floor, what is left over, the trays, and a bank that has whatever is wanted. */
  const roomOf = (floor, left, trays) => {
    const nothing = floor.map(() => 0);
    return together([
      { pile: pileOf("floor", nothing, floor), many: 1 },
      { pile: pileOf("bank", floor.map(() => PLENTY), nothing), many: 1 },
      { pile: left, many: 1 },
      ...trays,
    ]);
  };

  /** After a tray too many or too few: everything again from the largest piece that lies or should lie on a tray. */
  const withTheRightTrays = (division, outcome) => {
    const held = [];
    const right = division.trays(division.end);
    for (const due of right) {
      const alike = outcome.trays.filter((tray) => tray.stands_for === due.stands_for);
      if (alike.length !== 1 || alike[0].sharers !== due.sharers || String(alike[0].holds) !== String(due.holds)) {
        held.push(...[due, ...alike].flatMap((tray) => placesHeld(tray.holds)));
      }
    }
    return held.length ? [againFrom(Math.max(...held), right.map((tray) => tray.holds))] : [];
  };

  /** Put right what the slip brought or took, then everything again from the highest place not right on a tray. */
  const fromOnePlaceDown = (room, occasion) => {
    const plan = [];
    const wrong = broughtBy(occasion);
    for (let place = room[0].pile.off.length - 1; place >= 0; place -= 1) {
      const pieces = wrong[place] ?? 0;
      if (pieces < 0) {
        const source = occasion.slip === "piece-rolled-away" ? "floor" : "bank";
        plan.push({ pieces: -pieces, place, source, target: "left-over", giving: null, taking: null });
      } else if (pieces > 0) {
        const inRoom = room.filter(({ pile }) => pile.at === "left-over" || pile.at === "tray");
        const there = inRoom.reduce((total, { pile, many }) => total + many * holds(pile, place), 0);
        wrong[place - 1] = (wrong[place - 1] ?? 0) + TEN * Math.max(pieces - there, 0);
        const brought = toTheBank(room, place, Math.min(pieces, there));
        plan.push(...brought.plan);
        room = brought.room;
      }
    }
    const trays = room.map(({ pile }) => pile).filter((pile) => pile.at === "tray");
    const off = trays.flatMap((pile) => [...pile.off.keys()].filter((place) => pile.off[place]));
    return [...plan, againFrom(Math.max(UNITS, ...off), trays.map((pile) => pile.right))];
  };

  /** @type {(place: number, due: Counts[]) => Object} due: what should lie on each tray */
  const againFrom = (place, due) => ({
    again: place,
    everything: !due.some((pieces) => pieces.slice(place + 1).some(Boolean)),
  });

  /** @type {(occasion: Occasion) => Object<number, number>} pieces of each place brought into the room by a slip */
  const broughtBy = ({ slip, place, other }) => {
    switch (slip) {
      case "bank-counts-nine":
      case "laid-out-too-few":
      case "piece-rolled-away":
        return { [place]: -1 };
      case "bank-counts-eleven":
      case "laid-out-too-many":
      case "piece-not-banked":
        return { [place]: 1 };
      case "bank-wrong-kind":
        return { [place]: -TEN, [other]: TEN };
      default:
        return {};
    }
  };

  /** From what is left over; else from as few of the fullest trays as give alike; else by way of the middle. */
  const toTheBank = (room, place, pieces) => {
    const plan = [];
    let missing = pieces - holds(room.find(({ pile }) => pile.at === "left-over").pile, place);
    const trays = room
      .filter(({ pile }) => pile.at === "tray")
      .sort((one, other) => reads(other.pile) - reads(one.pile));
    const give = (pile, some, each, target) => {
      const giving = { reads: reads(pile), trays: some, stands_for: pile.stands_for };
      plan.push({ pieces: each, place, source: "tray", target, giving, taking: null });
      room = lighter(room, pile, some, place, each);
    };
    if (missing > 0) {
      for (const { pile, many } of trays) {
        for (let some = 1; some <= many; some += 1) {
          const each = pieces / some;
          if (pieces % some === 0 && each <= holds(pile, place)) {
            give(pile, some, each, "bank");
            return { plan, room };
          }
        }
      }
    }
    for (const { pile, many } of trays) {
      const each = Math.min(holds(pile, place), Math.ceil(missing / many));
      if (each > 0) {
        missing -= each * many;
        give(pile, many, each, "left-over");
      }
    }
    if (pieces) plan.push({ pieces, place, source: "left-over", target: "bank", giving: null, taking: null });
    return { plan, room };
  };

  /** The room when so many of some trays have given pieces; what is left over is not followed. */
  const lighter = (room, pile, trays, place, pieces) =>
    together([
      ...room,
      { pile, many: -trays },
      { pile: withMore(pile, place, -pieces), many: trays },
    ]);

  sharing.repairs = { repair, easier, byWhatIsSeen };
}
