// What each single slip leaves behind, worked out at every occasion of a sharing where it can happen. A slip disturbs
// the room at one moment; from there on the same dealing rule carries the lesson to its end, and nobody notices before
// the close. What people do after each slip is told in generator/engine/slips.py.
"use strict";
((sharing) => {
  const { UNITS, digitsOf, valueOf, sum, placesHeld, plus, raised, quotientOf } = sharing.places;
  const { dealOn } = sharing.dealing;
  const { Division } = sharing.division;
  const { readings, beadsOn } = sharing.observations;

  /** Every slip, the likeliest first: common practice, no source. */
  const SLIPS = [
    "left-over-dealt",
    "round-not-taken-back",
    "child-skipped",
    "bank-counts-nine",
    "bank-counts-eleven",
    "child-dealt-twice",
    "zero-forgotten",
    "piece-not-banked",
    "piece-rolled-away",
    "laid-out-too-few",
    "laid-out-too-many",
    "tray-too-few",
    "tray-too-many",
    "cards-swapped",
    "bank-wrong-kind",
  ];

  /**
   * One slip, and where and when it happens. place: of the pieces it is about, null for every place; turn: which
   * exchange or round, from 1, or 0; other: the kind that came from the bank, or the smaller of two places swapped;
   * many: how many trays kept a piece or zeros were forgotten; spot: where a piece ended up, or which trays are read.
   * @typedef {{slip: string, place: number | null, turn: number, other: number | null, many: number,
   *   spot: string | null}} Occasion
   */

  /**
   * The room at the close after one slip. trays: what lies on them, in the order of dealing, within one kind who has
   * more first; left: the pieces left over; seen: what is read at the close.
   * @typedef {{occasion: Occasion, trays: Tray[], left: Counts, seen: Observation}} Outcome
   */

  /**
   * How many sharers who stand for 10^width have one piece of a place more (+1) or less (-1) than the others.
   * @typedef {{width: number, sharers: number, place: number, pieces: number}} Difference
   */

  /** @type {(slip: string, place: number | null, more?: Partial<Occasion>) => Occasion} */
  const occasionOf = (slip, place, more = {}) => ({ slip, place, turn: 0, other: null, many: 1, spot: null, ...more });

  /** @type {(occasion: Occasion, trays: Tray[], left: Counts, read?: Reading[]) => Outcome} read: other than it lies */
  const outcomeOf = (occasion, trays, left, read = beadsOn(trays)) => ({
    occasion,
    trays,
    left,
    seen: { trays: read, left: valueOf(left) },
  });

  /**
   * Every slip at every occasion, also where it leaves no trace; who looks first may forget to look.
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
      ...rolledAway(division),
      ...withCards(division),
    ];
  };

  function* layingOut(division) {
    const before = division.beginning;
    for (const [place, laid] of division.start.entries()) {
      yield goOn(division, occasionOf("laid-out-too-many", place), before, plus(before.middle, place, 1));
      if (laid) yield goOn(division, occasionOf("laid-out-too-few", place), before, plus(before.middle, place, -1));
    }
  }

  function* countingTrays(division) {
    for (const width of placesHeld(division.mat)) {
      for (const [slip, more] of [["tray-too-few", -1], ["tray-too-many", 1]]) {
        const changed = plus(division.mat, width, more);
        if (!sum(changed)) continue;
        const mat = changed.slice(0, placesHeld(changed)[0] + 1);
        const end = dealOn(division.beginning, mat);
        const trays = traysOn(mat, end.share);
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
    for (const step of division.steps.filter(({ action }) => action === "exchange")) {
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
      yield outcomeOf(kept("left-over"), traysOn(mat, end.share), plus(end.middle, large, 1));
      for (const width of placesHeld(mat)) {
        const trays = traysOn(mat, end.share, [{ width, sharers: 1, place: large, pieces: 1 }]);
        yield outcomeOf(kept("one-tray"), trays, end.middle);
      }
    }
  }

  function* inWholeRounds(division) {
    for (const { after: room } of division.steps.filter(({ action }) => action === "deal-round")) {
      const turn = room.share[room.level];
      for (const width of placesHeld(division.mat)) {
        const place = room.level + width;
        const more = { width, sharers: 1, place, pieces: 1 };
        const less = { ...more, pieces: -1 };
        yield misdealt(division, occasionOf("child-skipped", place, { turn }), room, [less]);
        const twice = occasionOf("child-dealt-twice", place, { turn });
        if (room.middle[place]) yield misdealt(division, twice, room, [more]);
        else if (division.mat[width] > 1) yield misdealt(division, twice, room, [more, less]);
      }
    }
  }

  function* inRoundsTakenBack(division) {
    for (const step of division.steps.filter(({ action }) => action === "take-back")) {
      const room = step.after;
      const { level } = room;
      const turn = room.share[level] + 1;
      for (let many = 1; many <= step.pieces; many += 1) {
        const occasion = occasionOf("round-not-taken-back", level, { turn, many });
        const outcome = misdealt(division, occasion, room, firstSharers(division.mat, level, many));
        yield outcome;
        if (level === UNITS) yield { ...outcome, occasion: occasionOf("left-over-dealt", UNITS, { many }) };
      }
      for (const served of firstSharers(division.mat, level, step.pieces)) {
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
        yield outcomeOf(occasion, traysOn(mat, end.share, [{ width, sharers: 1, place, pieces: -1 }]), end.middle);
      }
    }
  }

  /** The share is read from cards that are not right: one child's, or everybody's. */
  function* withCards(division) {
    const { end } = division;
    const trays = traysOn(division.mat, end.share);
    const beads = beadsOn(trays);
    const last = beads[beads.length - 1];
    for (const [occasion, value] of misread(digitsOf(division.quotient))) {
      const one = { value: value * last.stands_for, sharers: 1, stands_for: last.stands_for };
      const byOne = readings([...beads, { ...last, sharers: -1 }, one]);
      yield outcomeOf({ ...occasion, spot: "one-tray" }, trays, end.middle, byOne);
      if (division.sharers > 1) {
        const byAll = readings(beads.map((tray) => ({ ...tray, value: value * tray.stands_for })));
        yield outcomeOf({ ...occasion, spot: "every-tray" }, trays, end.middle, byAll);
      }
    }
  }

  /** Two places swapped, one zero forgotten, every zero forgotten: and what the cards read then. */
  function* misread(digits) {
    for (let low = 0; low < digits.length; low += 1) {
      for (let high = low + 1; high < digits.length; high += 1) {
        if (digits[low] === digits[high]) continue;
        const swapped = [...digits];
        [swapped[low], swapped[high]] = [digits[high], digits[low]];
        yield [occasionOf("cards-swapped", high, { other: low }), valueOf(swapped)];
      }
    }
    const zeros = [...digits.keys()].filter((place) => !digits[place]);
    if (!valueOf(digits) || !zeros.length) return;
    for (const zero of zeros) {
      yield [occasionOf("zero-forgotten", zero), valueOf(digits.filter((_, place) => place !== zero))];
    }
    if (zeros.length > 1) {
      const occasion = occasionOf("zero-forgotten", zeros[zeros.length - 1], { many: zeros.length });
      yield [occasion, valueOf(digits.filter(Boolean))];
    }
  }

  /** @type {(mat: Counts, level: number, many: number) => Difference[]} the first so many have one piece more */
  const firstSharers = (mat, level, many) => {
    const first = [];
    for (const width of placesHeld(mat)) {
      const sharers = Math.min(many, mat[width]);
      many -= sharers;
      if (sharers) first.push({ width, sharers, place: level + width, pieces: 1 });
    }
    return first;
  };

  /** Deal on after some have more or less than the others: what they have lies no longer in the middle. */
  const misdealt = (division, occasion, room, differences) => {
    const taken = (middle, one) => plus(middle, one.place, -one.pieces * one.sharers);
    return goOn(division, occasion, room, differences.reduce(taken, room.middle), differences);
  };

  /** Deal on from a disturbed middle. */
  const goOn = (division, occasion, room, middle, differences = []) => {
    const end = dealOn({ ...room, middle }, division.mat);
    return outcomeOf(occasion, traysOn(division.mat, end.share, differences), end.middle);
  };

  /** @type {(mat: Counts, share: Counts, differences?: Difference[]) => Tray[]} equal trays together */
  const traysOn = (mat, share, differences = []) =>
    placesHeld(mat).flatMap((width) => {
      const holds = raised(share, width);
      const mine = differences.filter((one) => one.width === width);
      const others = mat[width] - sum(mine.map((one) => one.sharers));
      const groups = mine.map((one) => ({ sharers: one.sharers, holds: plus(holds, one.place, one.pieces) }));
      return [...groups, { sharers: others, holds }]
        .sort((one, other) => valueOf(other.holds) - valueOf(one.holds))
        .filter(({ sharers }) => sharers)
        .map((group) => ({ sharers: group.sharers, stands_for: 10 ** width, holds: group.holds }));
    });

  sharing.slips = { SLIPS, simulate };
})((globalThis.sharing ??= {}));
