// What each single slip leaves behind, worked out at every occasion of a sharing where it can happen. A slip disturbs
// the room at one moment; from there on the same dealing rule carries the lesson to its end, and nobody notices before
// the close. What people do after each slip is told in generator/engine/outcomes.py.
"use strict";
{
  const { UNITS, THOUSANDS, quotientOf, valueOf, sum, placesHeld, plus, raised } = sharing.places;
  const { beginning, dealOn } = sharing.dealing;
  const { Division } = sharing.division;
  const { firstServed, everyTray } = sharing.trays;
  const { readings, beadsOn } = sharing.observations;
  const { occasionOf, outcomeOf } = sharing.slips;
  const { misreadings } = sharing.misreadings;

  /**
   * Every slip at every occasion, also where it leaves no trace; with lookFirst too, as people may forget it.
   * @type {(division: Division) => Outcome[]}
   */
  const simulate = (shared) => {
    const division = shared.lookFirst ? new Division(shared.dividend, shared.mat) : shared;
    return [
      ...layingOut(division),
      ...countingTrays(division),
      ...atTheBank(division),
      ...inWholeRounds(division),
      ...inRoundsTakenBack(division),
      ...withTheSameKind(division),
      ...rolledAway(division),
      ...misreadings(division),
    ];
  };

  function* layingOut(division) {
    const before = division.beginning;
    for (const [place, laid] of division.start.entries()) {
      yield goOn(division, occasionOf("laid-out-too-many", place), before, plus(before.middle, place, 1));
      if (laid) yield goOn(division, occasionOf("laid-out-too-few", place), before, plus(before.middle, place, -1));
    }
    const larger = division.start.length;
    if (larger > THOUSANDS) return;
    const start = [...division.start, 1]; // the bank has pieces larger than those of the number
    yield goOn(division, occasionOf("laid-out-too-many", larger), beginning(start, division.mat), start);
  }

  function* countingTrays(division) {
    for (const width of division.widths) {
      for (const [slip, more] of [["tray-too-few", -1], ["tray-too-many", 1]]) {
        const mat = plus(division.mat, width, more);
        if (!sum(mat)) continue;
        const end = dealOn(division.beginning, mat);
        const trays = everyTray(mat, end.share);
        yield outcomeOf(occasionOf(slip, null, { spot: "every-tray" }), trays, end.middle);
        const value = more > 0 ? valueOf(end.share) * 10 ** width : 0;
        const read = readings([...beadsOn(trays), { value, sharers: -more, stands_for: 10 ** width }]);
        yield outcomeOf(occasionOf(slip, null, { spot: "every-child" }), trays, end.middle, read);
      }
    }
  }

  function* atTheBank(division) {
    const { end, mat } = division;
    const turns = {};
    for (const step of division.stepsOf("exchange")) {
      const room = step.after;
      const large = step.place;
      const small = large - 1;
      const turn = (turns[large] = (turns[large] ?? 0) + 1);
      yield goOn(division, occasionOf("bank-counts-nine", small, { turn }), room, plus(room.middle, small, -1));
      yield goOn(division, occasionOf("bank-counts-eleven", small, { turn }), room, plus(room.middle, small, 1));
      const without = plus(room.middle, small, -10);
      for (const other of division.start.keys()) {
        if (other === small) continue;
        yield goOn(division, occasionOf("bank-wrong-kind", small, { turn, other }), room, plus(without, other, 10));
      }
      const kept = (spot) => occasionOf("piece-not-banked", large, { turn, spot });
      yield goOn(division, kept("middle"), room, plus(room.middle, large, 1));
      yield outcomeOf(kept("left-over"), everyTray(mat, end.share), plus(end.middle, large, 1));
      for (const width of placesHeld(mat)) {
        const trays = everyTray(mat, end.share, [{ width, sharers: 1, place: large, pieces: 1 }]);
        yield outcomeOf(kept("one-tray"), trays, end.middle);
      }
    }
  }

  function* inWholeRounds(division) {
    for (const { after: room } of division.stepsOf("deal-round")) {
      const turn = room.share[room.level];
      for (const width of division.widths) {
        const place = room.level + width;
        const more = { width, sharers: 1, place, pieces: 1 };
        const less = { ...more, pieces: -1 };
        yield misdealt(division, occasionOf("child-skipped", place, { turn }), room, [less]);
        if (room.level > UNITS) {
          yield leftLying(division, occasionOf("child-skipped", place, { turn, spot: "left-over" }), less);
        }
        if (turn > 1 && turn === division.end.share[room.level]) yield* withoutAPlace(division, room, width);
        const twice = occasionOf("child-dealt-twice", place, { turn });
        if (room.middle[place]) yield misdealt(division, twice, room, [more]);
        else if (division.mat[width] > 1) yield misdealt(division, twice, room, [more, less]);
      }
    }
  }

  /** One tray is passed over in every round of a level; the room is the one after the last of them. */
  function* withoutAPlace(division, room, width) {
    const { end, mat } = division;
    const pieces = room.share[room.level];
    const lacks = { width, sharers: 1, place: room.level + width, pieces: -pieces };
    const none = (spot) => occasionOf("none-of-a-place", lacks.place, { other: width, many: pieces, spot });
    yield leftLying(division, none("left-over"), lacks);
    const middle = plus(room.middle, lacks.place, pieces);
    const others = division.sharers - 1;
    const rounds = others && mat.length === 1 ? quotientOf(middle[lacks.place], others) : 0;
    if (rounds) {
      const shareOfOthers = plus(room.share, room.level, rounds);
      const dealt = plus(middle, lacks.place, -rounds * others);
      const later = dealOn({ ...room, middle: dealt, share: shareOfOthers }, mat);
      const lacksMore = { ...lacks, pieces: -pieces - rounds };
      yield outcomeOf(none(null), everyTray(mat, later.share, [lacksMore]), later.middle);
      return;
    }
    if (room.level === UNITS) return;
    const later = dealOn({ ...room, middle }, mat);
    if (later.share[room.level] === pieces) {
      yield outcomeOf(none("middle"), everyTray(mat, later.share, [lacks]), later.middle);
    }
  }

  /** What a tray did not get lies in the middle until the end. */
  const leftLying = ({ end, mat }, occasion, lacks) =>
    outcomeOf(occasion, everyTray(mat, end.share, [lacks]), plus(end.middle, lacks.place, -lacks.pieces));

  function* withTheSameKind(division) {
    const { widths } = division;
    const [larger, smallest] = [widths.slice(0, -1), widths.at(-1)];
    if (!larger.length) return;
    const plain = [division.sharers];
    const end = dealOn(beginning(division.start, plain), plain);
    const trays = widths.map((width) => ({
      sharers: division.mat[width],
      stands_for: 10 ** width,
      holds: end.share,
    }));
    yield outcomeOf(occasionOf("ribbon-given-same-kind", null, { spot: "every-tray" }), trays, end.middle);
    for (const width of larger) {
      const others = plus(division.mat, width, -1);
      const mat = plus(others, smallest, 1);
      if (placesHeld(mat).length === 1) continue; // everybody is given the same
      const { share, middle } = dealOn(division.beginning, mat);
      const one = { sharers: 1, stands_for: 10 ** width, holds: raised(share, smallest) };
      const alike = [...everyTray(others, share), one].sort((tray, other) => other.stands_for - tray.stands_for);
      yield outcomeOf(occasionOf("ribbon-given-same-kind", null, { other: width }), alike, middle);
    }
    for (const { after: room } of division.stepsOf("deal-round")) {
      for (const width of larger) {
        const due = room.level + width;
        const given = room.level + smallest;
        const turn = room.share[room.level];
        const occasion = occasionOf("ribbon-given-same-kind", due, { turn, other: given, spot: "one-tray" });
        let middle = plus(room.middle, due, 1);
        for (let place = due; place > given; place -= 1) {
          if (!sum(middle.slice(given, place))) middle = plus(plus(middle, place, -1), place - 1, 10);
        }
        const differences = [{ width, sharers: 1, place: due, pieces: -1, instead: given }];
        yield goOn(division, occasion, room, plus(middle, given, -1), differences);
      }
    }
  }

  function* inRoundsTakenBack(division) {
    for (const step of division.stepsOf("take-back")) {
      const room = step.after;
      const { level } = room;
      const turn = room.share[level] + 1;
      for (let many = 1; many <= step.pieces; many += 1) {
        const occasion = occasionOf("round-not-taken-back", level, { turn, many });
        const outcome = misdealt(division, occasion, room, firstServed(division.mat, level, many));
        yield outcome;
        if (level === UNITS) yield { ...outcome, occasion: occasionOf("left-over-dealt", UNITS, { many }) };
      }
      for (const served of firstServed(division.mat, level, step.pieces)) {
        if (room.middle[served.place] > 1) {
          const occasion = occasionOf("child-dealt-twice", served.place, { turn });
          yield misdealt(division, occasion, room, [{ ...served, sharers: 1 }]);
        }
      }
    }
  }

  function* rolledAway(division) {
    const steps = division.steps.filter(({ action }) => action !== "start-round");
    const rooms = new Map();
    for (const room of [division.beginning, ...steps.map((step) => step.after)]) {
      const { middle, share, level, ahead } = room;
      rooms.set([middle, share, level, ahead].join(";"), room);
    }
    for (const room of rooms.values()) {
      for (const place of placesHeld(room.middle)) {
        const occasion = occasionOf("piece-rolled-away", place, { spot: "middle" });
        yield goOn(division, occasion, room, plus(room.middle, place, -1));
      }
    }
    const { end, mat } = division;
    for (const width of placesHeld(mat)) {
      for (const held of placesHeld(end.share)) {
        const place = held + width;
        const occasion = occasionOf("piece-rolled-away", place, { spot: "one-tray" });
        yield outcomeOf(occasion, everyTray(mat, end.share, [{ width, sharers: 1, place, pieces: -1 }]), end.middle);
      }
    }
  }

  /** Deal on after some have more or less than the others: what they have lies no longer in the middle. */
  const misdealt = (division, occasion, room, differences) => {
    const taken = (middle, one) => plus(middle, one.place, -one.pieces * one.sharers);
    return goOn(division, occasion, room, differences.reduce(taken, room.middle), differences);
  };

  /** Deal on from a disturbed middle. */
  const goOn = (division, occasion, room, middle, differences = []) => {
    const end = dealOn({ ...room, middle }, division.mat);
    return outcomeOf(occasion, everyTray(division.mat, end.share, differences), end.middle);
  };

  sharing.outcomes = { simulate };
}
