// What puts a room right again after a slip: the fewest movements, or sharing out again from one place down. A repair
// leads from what a slip left behind to the right pieces on every tray and left over, an empty floor and a whole bank.
"use strict";
{
  const { UNITS, digitsOf, placesHeld, at, plus, less, withPlaces, valueOf, quotientOf } = sharing.places;
  const { dealOn } = sharing.dealing;
  const { TEN, pileOf, holds, reads, withMore, together, roomOf, traysOf, inAll } = sharing.repairMovements;
  const { MOST_MOVEMENTS, shortest } = sharing.shortest;
  const { traysMadeAlike } = sharing.whateverHappened;

  /** @type {(division: Division, outcome: Outcome) => Repair} nothing where all pieces lie right, as with cards */
  const repair = (division, outcome) => {
    const { slip } = outcome.occasion;
    if (slip === "tray-too-few" || slip === "tray-too-many") return withTheRightTrays(division, outcome);
    const room = leftBehind(division, outcome);
    return shortest(room, MOST_MOVEMENTS) ?? fromOnePlaceDown(room, outcome.occasion);
  };

  /**
   * The fewest movements; or sharing out again from one place down, where children could not follow them: where pieces
   * of several places change on trays and at the bank. Where one movement is enough before they share on, that is
   * easier than two.
   * @type {(division: Division, outcome: Outcome, fewest: Repair) => Repair}
   */
  const easier = (division, outcome, fewest) => {
    const areSeveral = (steps) => new Set(steps.map(({ place }) => place)).size > 1;
    const onTrays = fewest.filter(({ giving, taking }) => giving || taking);
    const atTheBank = fewest.filter(({ source, target }) => [source, target].includes("bank"));
    const isEasy = !areSeveral(onTrays) || !areSeveral(atTheBank);
    const advice = isEasy ? fewest : fromOnePlaceDown(leftBehind(division, outcome), outcome.occasion);
    const isLong = advice.length > 1 || advice.some((step) => "again" in step);
    return (isLong && oneMovementAndOn(division, outcome)) || advice;
  };

  /**
   * One movement between middle and trays after which the trays are alike and the sharing goes on; null if none is, and
   * after a tray too many: the tray without a child is not read.
   */
  const oneMovementAndOn = (division, outcome) => {
    const { slip } = outcome.occasion;
    if (slip === "tray-too-many") return null;
    const [first, then] = traysMadeAlike(division, outcome.seen, 1);
    if (!then) return null;
    if (first.source !== "left-over" && first.target !== "left-over") return null;
    const isFound = slip === "piece-rolled-away" && first.source === "bank";
    const one = isFound ? { ...first, source: "floor" } : first;
    return leadsToTheEnd(division, one, outcome) ? [one, then] : null;
  };

  /** Whether the pieces to move are there, trays then hold fewer than ten of a kind, and dealing on ends right. */
  const leadsToTheEnd = (division, movement, { trays, left }) => {
    const { pieces, place, source, target, giving, taking } = movement;
    const isOf = (ends, { holds, stands_for }) => ends?.value === valueOf(holds) && ends.stands_for === stands_for;
    const middle = plus(left, place, inAll(movement) * ((target === "left-over") - (source === "left-over")));
    const then = trays.map((tray) => {
      const more = pieces * (isOf(taking, tray) - isOf(giving, tray));
      return { ...tray, holds: plus(tray.holds, place, more) };
    });
    const areDigits = then.every(({ holds }) => holds.every((there) => there >= 0 && there < TEN));
    if (!areDigits || Math.min(...middle) < 0) return false;
    const [{ holds, stands_for }] = then;
    const share = withPlaces(digitsOf(quotientOf(valueOf(holds), stands_for)), middle.length);
    const end = dealOn({ middle, share, level: UNITS }, division.mat);
    const isRight = (what) => end[what].every((count, place) => count === at(division.end[what], place));
    return isRight("middle") && isRight("share");
  };

  /** @type {(division: Division, outcome: Outcome) => Room} */
  const leftBehind = (division, { occasion, trays, left }) => {
    const size = Math.max(division.start.length, left.length, ...trays.map((tray) => tray.holds.length));
    const pile = (at, right, there, stands_for = 1) => {
      const full = withPlaces(right, size);
      return pileOf(at, full, less(withPlaces(there, size), full), stands_for);
    };
    const due = Object.fromEntries(division.trays(division.end).map((tray) => [tray.stands_for, tray.holds]));
    const rolled = occasion.slip === "piece-rolled-away" ? occasion.place : null;
    const piles = trays.map((tray) => ({
      pile: pile("tray", due[tray.stands_for], tray.holds, tray.stands_for),
      many: tray.sharers,
    }));
    return roomOf(plus(withPlaces([], size), rolled, 1), pile("left-over", division.end.middle, left), piles);
  };

  /** After a tray too many or too few: everything again from the largest piece that lies or should lie on a tray. */
  const withTheRightTrays = (division, outcome) => {
    const due = division.trays(division.end);
    const isNotIn = (trays) => (tray) => !trays.map((one) => JSON.stringify(one)).includes(JSON.stringify(tray));
    const notRight = [...due.filter(isNotIn(outcome.trays)), ...outcome.trays.filter(isNotIn(due))];
    const held = notRight.flatMap((tray) => placesHeld(tray.holds));
    return held.length ? [{ again: Math.max(...held) }] : [];
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
    return [...plan, { again: Math.max(UNITS, ...off) }];
  };

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
      plan.push({ pieces: each, place, source: "tray", target, giving: traysOf({ pile, many: some }), taking: null });
      const lighter = { pile: withMore(pile, place, -each), many: some };
      room = together([...room, { pile, many: -some }, lighter]); // what is left over is not followed
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

  sharing.repairs = { repair, easier };
}
