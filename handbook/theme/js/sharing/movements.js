// Movements that put a room right: where pieces lie, what is off there, and what a movement changes.
"use strict";
{
  const { valueOf, plus } = sharing.places;

  /** Where pieces lie, in the order in which plans prefer to take them and to put them. */
  const WHERE = ["floor", "bank", "left-over", "tray"];
  const TEN = 10;
  const PLENTY = 10 ** 6;

  /**
   * How much lies where, and what should: floor, bank, left over, or trays for the same that hold the same. right: the
   * right pieces by place; off: how many pieces more than right (below zero: fewer); text: the same for equal piles.
   * @typedef {{at: string, right: Counts, off: Counts, stands_for: number, text: string}} Pile
   */

  /**
   * How many there are of each pile: one floor, one bank, one left over, and so many trays.
   * @typedef {{pile: Pile, many: number}[]} Room
   */

  /**
   * A movement of so many pieces of a place (for each tray) or, without a target, an exchange: of one for ten, or of
   * ten for one.
   * @typedef {{source: Pile, target: Pile | null, place: number, pieces: number}} PlannedMove
   */

  /**
   * Trays that do the same: what each reads before, how many they are, what each stands for.
   * @typedef {{reads: number, trays: number, stands_for: number}} Alike
   */

  /**
   * A movement {pieces, place, source, target, giving, taking}: with trays, so many from or to each of them. An
   * exchange {exchange, place, at, trays}: 1 piece of a place becomes ten, or 10 become one. {changePlaces}: so
   * many trays stand before another child. {again, everything}: all of this place and below goes back to the middle and
   * is shared out again; everything: nothing stays on the trays. {shareOn}: what all trays have is right so far, and
   * from this place down the middle still goes round.
   * @typedef {Object[]} Repair
   */

  /** @type {(at: string, right: Counts, off: Counts, stands_for?: number) => Pile} */
  const pileOf = (at, right, off, stands_for = 1) => ({
    at,
    right,
    off,
    stands_for,
    text: [at, right, off, stands_for].join(";"),
  });

  /** @type {(pile: Pile, place: number) => number} how many pieces lie there */
  const holds = (pile, place) => pile.right[place] + pile.off[place];

  /** @type {(pile: Pile) => number} */
  const reads = (pile) => valueOf(pile.right) + valueOf(pile.off);

  /** @type {(pile: Pile, place: number, pieces: number) => Pile} with more pieces; the bank itself is not followed */
  const withMore = (pile, place, pieces) =>
    pile.at === "bank" ? pile : pileOf(pile.at, pile.right, plus(pile.off, place, pieces), pile.stands_for);

  /** @type {(piles: Room) => Room} equal piles together, without those of which there are none */
  const together = (piles) => {
    const room = new Map();
    for (const { pile, many } of piles) {
      room.set(pile.text, { pile, many: many + (room.get(pile.text)?.many ?? 0) });
    }
    return [...room.values()].filter(({ many }) => many);
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

  /** @type {(place: number, due: Counts[]) => Object} due: what should lie on each tray */
  const againFrom = (place, due) => ({
    again: place,
    everything: !due.some((pieces) => pieces.slice(place + 1).some(Boolean)),
  });

  const howMany = (room, pile) => room.find((one) => one.pile === pile).many;

  /** @type {(room: Room, move: PlannedMove) => Room} the room when a move is done */
  const roomAfter = (room, { source, target, place, pieces }) => {
    const changed = new Map();
    if (target) {
      const [givers, takers] = [howMany(room, source), howMany(room, target)];
      const inAll = pieces * Math.max(givers, takers);
      changed.set(source, withMore(source, place, -inAll / givers));
      changed.set(target, withMore(target, place, inAll / takers));
    } else {
      const down = pieces === 1;
      const larger = withMore(source, down ? place : place + 1, down ? -1 : 1);
      changed.set(source, withMore(larger, down ? place - 1 : place, down ? TEN : -TEN));
    }
    return together(room.map(({ pile, many }) => ({ pile: changed.get(pile) ?? pile, many })));
  };

  /** @type {(room: Room, move: PlannedMove) => Object} as those who read it see it: trays by what is read on them */
  const told = (room, { source, target, place, pieces }) => {
    const giving = alike(room, source);
    if (!target) return { exchange: pieces, place, at: source.at, trays: giving };
    return { pieces, place, source: source.at, target: target.at, giving, taking: alike(room, target) };
  };

  const alike = (room, pile) =>
    pile.at === "tray" ? { reads: reads(pile), trays: howMany(room, pile), stands_for: pile.stands_for } : null;

  /** @type {(movement: Object) => number} how many pieces move */
  const inAll = ({ pieces, giving, taking }) => pieces * Math.max(giving?.trays ?? 1, taking?.trays ?? 1);

  sharing.movements = {
    WHERE,
    TEN,
    pileOf,
    holds,
    reads,
    withMore,
    together,
    roomOf,
    roomAfter,
    inAll,
    againFrom,
    told,
  };
}
