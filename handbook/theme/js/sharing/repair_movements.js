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
   * A movement {pieces, place, source, target, giving, taking}: with trays, as they read before, so many from or to
   * each of them. An exchange {exchange, place, at, trays}: 1 piece of a place becomes ten, or 10 become one.
   * {changePlaces}: so many trays stand before another child. {refill, trays}: all that lies on each of these trays
   * goes back to the middle, and each is given what it is due. {again}: all of this place and below goes back to the
   * middle and is shared out again. {shareOn}: what all trays have is right so far, and from this place down the
   * middle still goes round.
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

  /** @type {(pile: Pile, place: number, pieces: number) => Pile} a copy with more pieces; the bank stays as it is */
  const withMore = (pile, place, pieces) =>
    pile.at === "bank" ? pile : pileOf(pile.at, pile.right, plus(pile.off, place, pieces), pile.stands_for);

  /** @type {(piles: Room) => Room} equal piles merged, those of which there are none left out */
  const together = (piles) => {
    const room = new Map();
    for (const { pile, many } of piles) {
      room.set(pile.text, { pile, many: many + (room.get(pile.text)?.many ?? 0) });
    }
    return [...room.values()].filter(({ many }) => many);
  };

  /** A room of a floor, what is left over, trays, and a bank that has enough of everything. */
  const roomOf = (floor, left, trays) => {
    const nothing = floor.map(() => 0);
    return together([
      { pile: pileOf("floor", nothing, floor), many: 1 },
      { pile: pileOf("bank", floor.map(() => PLENTY), nothing), many: 1 },
      { pile: left, many: 1 },
      ...trays,
    ]);
  };

  /**
   * So many pieces of a place from each source or to each target: the movement, and the room after it.
   * @type {(room: Room, source: Room[0], target: Room[0], place: number, pieces: number) =>
   *   {step: Object, after: Room}}
   */
  const moved = (room, source, target, place, pieces) => {
    const inAll = pieces * Math.max(source.many, target.many);
    const lighter = { pile: withMore(source.pile, place, -inAll / source.many), many: source.many };
    const heavier = { pile: withMore(target.pile, place, inAll / target.many), many: target.many };
    const ends = { source: source.pile.at, target: target.pile.at };
    const step = { pieces, place, ...ends, giving: traysOf(source), taking: traysOf(target) };
    return { step, after: together([...without(room, source, target), lighter, heavier]) };
  };

  /**
   * 1 piece of a place for ten, or 10 for one: the exchange, and the room after it.
   * @type {(room: Room, source: Room[0], place: number, pieces: number) => {step: Object, after: Room}}
   */
  const exchanged = (room, source, place, pieces) => {
    const { pile, many } = source;
    const other = pieces === 1 ? place - 1 : place + 1;
    const changed = { pile: withMore(withMore(pile, place, -pieces), other, TEN / pieces), many };
    const step = { exchange: pieces, place, at: pile.at, trays: traysOf(source) };
    return { step, after: together([...without(room, source), changed]) };
  };

  const without = (room, ...piles) => room.filter((one) => !piles.includes(one));

  /** Trays named by what they read; null for a pile that is not trays. */
  const traysOf = ({ pile, many }) =>
    pile.at === "tray" ? { value: reads(pile), sharers: many, stands_for: pile.stands_for } : null;

  /** @type {(movement: Object) => number} how many pieces move */
  const inAll = ({ pieces, giving, taking }) => pieces * Math.max(giving?.sharers ?? 1, taking?.sharers ?? 1);

  sharing.repairMovements = {
    WHERE,
    TEN,
    pileOf,
    holds,
    reads,
    withMore,
    together,
    roomOf,
    moved,
    exchanged,
    traysOf,
    inAll,
  };
}
