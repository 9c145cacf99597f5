// The shortest way to put a room right, as few movements as there can be. Among plans that are equally short the
// thrifty ones come first: the bank gives no more of a place than the whole room lacks there, and takes no more than is
// too many; so does each tray for itself, and pieces may go by the middle. Among these the first counts, compared
// movement by movement: the larger place first, then where the pieces come from and where they go (floor, bank, left
// over, trays), then the fullest trays. So moves are tried in this order, and only while so few movements may still be
// enough.
"use strict";
{
  const { sum, compare } = sharing.places;
  const { WHERE, TEN, holds, reads, moved, exchanged } = sharing.repairMovements;

  const MOST_MOVEMENTS = 4; // what people can still follow in one go

  /** @type {(room: Room, most: number) => Repair | null} null where it takes more than so many movements */
  const shortest = (room, most) => {
    for (let movements = Math.ceil(stillOff(room) / 2); movements <= most; movements += 1) {
      const plan = planOf(room, movements, false);
      if (plan) return planOf(room, movements, true) ?? plan;
    }
    return null;
  };

  /** A plan of no more than so many movements; after each of them less must be off, or pieces lie in the middle. */
  const planOf = (room, movements, thrifty) => {
    const off = stillOff(room);
    if (!off) return [];
    for (const { step, after } of steps(room, thrifty)) {
      const mostOff = thrifty && isByTheMiddle(step) ? off : off - 1;
      if (stillOff(after) > Math.min(mostOff, 2 * (movements - 1))) continue; // one movement settles no more than two
      const plan = planOf(after, movements - 1, thrifty);
      if (plan) return [step, ...plan];
    }
    return null;
  };

  /** Whether pieces go to what is left over or come from there, perhaps on their way between two trays. */
  const isByTheMiddle = ({ source, target }) => [source, target].includes("left-over");

  const kindOf = (pile) => `${pile.at} ${pile.stands_for}`;

  /** At how many piles pieces of a place are off; trays for the same that are off alike there count once. */
  const stillOff = (room) => {
    const off = room.flatMap(({ pile }) =>
      pile.off.map((pieces, place) => pieces && `${kindOf(pile)} ${place} ${pieces}`),
    );
    return new Set(off.filter(Boolean)).size;
  };

  /** What may be done next in a shortest plan, and the room after it, in the order in which plans are compared. */
  function* steps(room, thrifty) {
    const piles = named(room);
    const onTheWay = thrifty ? ["bank", "left-over"] : ["bank"];
    for (let place = piles[0].pile.off.length - 1; place >= 0; place -= 1) {
      const tooMany = thrifty ? sum(room.map(({ pile, many }) => many * pile.off[place])) : null;
      const off = new Map();
      for (const { pile } of room) {
        off.set(kindOf(pile), (off.get(kindOf(pile)) ?? new Set([0])).add(pile.off[place]));
      }
      const ends = piles.filter(({ pile }) => pile.off[place] || onTheWay.includes(pile.at));
      for (const source of piles) {
        for (const target of ends.includes(source) ? ends : []) {
          for (const pieces of worthMoving(source, target, place, off, tooMany)) {
            yield moved(room, source, target, place, pieces);
          }
        }
        for (const [changed, pieces] of worthExchanging(source, place)) {
          yield exchanged(room, source, changed, pieces);
        }
      }
    }
  }

  /**
   * The piles in the order of preference: floor, bank, left over, trays, of these the fullest first. Left out are trays
   * that read the same as others and hold something else, because words cannot tell them apart.
   */
  const named = (room) => {
    const isNamed = (one) => room.every((other) => other === one || nameOf(other.pile) !== nameOf(one.pile));
    return room.filter(isNamed).sort((one, other) => inOrder(one.pile, other.pile));
  };

  /** Exchanges of one piece of a place, or of ten of the next smaller, if either is off: the place and 1 or 10. */
  const worthExchanging = ({ pile }, place) => {
    const mayBe = place > 0 && (pile.at === "left-over" || pile.at === "tray");
    if (!mayBe || !(pile.off[place] || pile.off[place - 1])) return [];
    const down = holds(pile, place) ? [[place, 1]] : [];
    return holds(pile, place - 1) >= TEN ? [...down, [place - 1, TEN]] : down;
  };

  const nameOf = (pile) => `${kindOf(pile)} ${reads(pile)}`;

  /** Floor, bank, left over, trays; the fullest first; those that read the same by what is right and off, for whom. */
  const inOrder = (one, other) =>
    WHERE.indexOf(one.at) - WHERE.indexOf(other.at) ||
    reads(other) - reads(one) ||
    compare(one.right, other.right) ||
    compare(one.off, other.off) ||
    one.stands_for - other.stands_for;

  /**
   * How many pieces to move, ascending: as many as make source or target right, or like other trays of its kind.
   * tooMany: for a thrifty plan, how many more than right the whole room has (below zero: fewer): then a tray gives or
   * takes no more than it is off, and the bank no more than the room is off.
   */
  const worthMoving = (source, target, place, off, tooMany) => {
    const hands = Math.max(source.many, target.many);
    const fewer = Math.min(source.many, target.many);
    if (target.pile.at === "floor" || source === target || ![1, hands].includes(fewer)) return [];
    const thrifty = tooMany !== null;
    const pieces = new Set();
    let most = (holds(source.pile, place) * source.many) / hands;
    for (const [{ pile, many }, way] of [[source, 1], [target, -1]]) {
      const each = hands / many;
      for (const others of off.get(kindOf(pile))) {
        const more = way * (pile.off[place] - others);
        if (more > 0 && more % each === 0) pieces.add(more / each);
      }
      if (thrifty && pile.at === "tray") most = Math.min(most, (way * pile.off[place]) / each);
      if (thrifty && pile.at === "bank") most = Math.min(most, (-way * tooMany) / hands);
    }
    const ends = [source.pile.at, target.pile.at];
    if (thrifty && ends.includes("bank") && ends.includes("left-over")) pieces.add(most);
    return [...pieces].filter((more) => more > 0 && more <= most).sort((one, other) => one - other);
  };

  sharing.shortest = { MOST_MOVEMENTS, shortest };
}
