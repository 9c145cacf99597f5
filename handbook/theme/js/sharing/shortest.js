// The shortest way to put a room right, as few movements as there can be. Among plans that are equally short those come
// first in which the bank is thrifty: it gives no more of a place than the whole room lacks there, and takes no more
// than is too many. Among these the first counts, compared movement by movement: the larger place first, then where the
// pieces come from and where they go (floor, bank, left over, trays), then the fullest trays. So moves are tried in
// this order, and only while so few movements may still be enough.
"use strict";
{
  const { sum, compare } = sharing.places;
  const { WHERE, TEN, holds, reads, roomAfter, told } = sharing.movements;

  /** @type {(room: Room, most: number) => Repair | null} null where it takes more than so many movements */
  const shortest = (room, most) => {
    for (let movements = Math.ceil(stillOff(room) / 2); movements <= most; movements += 1) {
      const plan = planOf(room, movements, false);
      if (plan) return planOf(room, movements, true) ?? plan;
    }
    return null;
  };

  /** A plan of no more than so many movements; after each of them less must be off, or the bank done at a place. */
  const planOf = (room, movements, thrifty) => {
    const off = stillOff(room);
    if (!off) return [];
    for (const move of moves(room, thrifty)) {
      const after = roomAfter(room, move);
      const mostOff = thrifty && bankIsDone(room, move) ? off : off - 1;
      if (stillOff(after) > Math.min(mostOff, 2 * (movements - 1))) continue; // one movement settles no more than two
      const plan = planOf(after, movements - 1, thrifty);
      if (plan) return [told(room, move), ...plan];
    }
    return null;
  };

  /** How many pieces of a place more than right there are in the whole room; below zero: fewer. */
  const tooManyAt = (room, place) => sum(room.map(({ pile, many }) => many * pile.off[place]));

  /** Whether what is left over takes from the bank all that the whole room lacks of a place, or gives it all back. */
  const bankIsDone = (room, { source, target, place, pieces }) => {
    const ends = `${source.at} ${target?.at}`;
    const isOfBoth = ends === "bank left-over" || ends === "left-over bank";
    return isOfBoth && pieces === Math.abs(tooManyAt(room, place));
  };

  const kindOf = (pile) => `${pile.at} ${pile.stands_for}`;

  /** At how many piles pieces of a place are off; trays for the same that are off alike there count once. */
  const stillOff = (room) => {
    const off = room.flatMap(({ pile }) =>
      pile.off.map((pieces, place) => pieces && `${kindOf(pile)} ${place} ${pieces}`),
    );
    return new Set(off.filter(Boolean)).size;
  };

  const mayExchange = (pile) => pile.at === "left-over" || pile.at === "tray";

  /**
   * What may be done next in a shortest plan, in the order in which plans are compared. Trays that read the same as
   * others and do not hold the same cannot be named by what they read: nothing is done with them.
   */
  function* moves(room, thrifty) {
    const named = (one) => room.every((other) => other === one || nameOf(other.pile) !== nameOf(one.pile));
    const piles = room.filter(named).sort((one, other) => inOrder(one.pile, other.pile));
    for (let place = piles[0].pile.off.length - 1; place >= 0; place -= 1) {
      const off = piles.filter(({ pile }) => pile.off[place] || pile.at === "bank");
      const like = new Map();
      for (const { pile } of room) {
        like.set(kindOf(pile), (like.get(kindOf(pile)) ?? new Set([0])).add(pile.off[place]));
      }
      const tooMany = tooManyAt(room, place);
      for (const source of piles) {
        const { pile } = source;
        if (off.includes(source)) {
          for (const target of off) {
            const worth = worthMoving(source, target, place, like);
            const ofBank = pile.at === "bank" || target.pile.at === "bank";
            for (const pieces of thrifty && ofBank ? thriftyOf(worth, source, target, place, tooMany) : worth) {
              yield { source: pile, target: target.pile, place, pieces };
            }
          }
        }
        if (place && mayExchange(pile) && (pile.off[place] || pile.off[place - 1])) {
          if (holds(pile, place)) yield { source: pile, target: null, place, pieces: 1 };
          if (holds(pile, place - 1) >= TEN) yield { source: pile, target: null, place: place - 1, pieces: TEN };
        }
      }
    }
  }

  const nameOf = (pile) => `${kindOf(pile)} ${reads(pile)}`;

  /** Floor, bank, left over, trays; the fullest first; those that read the same by what is right and off, for whom. */
  const inOrder = (one, other) =>
    WHERE.indexOf(one.at) - WHERE.indexOf(other.at) ||
    reads(other) - reads(one) ||
    compare(one.right, other.right) ||
    compare(one.off, other.off) ||
    one.stands_for - other.stands_for;

  /** So many pieces for each tray that the source or the target is right, or like other trays for the same. */
  const worthMoving = (source, target, place, like) => {
    const unequal = source.pile.at === target.pile.at && source.many !== target.many;
    if (target.pile.at === "floor" || source === target || unequal) return [];
    const trays = Math.max(source.many, target.many);
    const there = holds(source.pile, place) * source.many;
    const pieces = new Set();
    for (const [pile, way] of [[source.pile, 1], [target.pile, -1]]) {
      if (pile.at === "bank") continue;
      const many = pile.at === "tray" ? 1 : trays;
      for (const off of like.get(kindOf(pile))) {
        const more = way * (pile.off[place] - off);
        if (more > 0 && more % many === 0) pieces.add(more / many);
      }
    }
    return [...pieces].filter((more) => more * trays <= there).sort((one, other) => one - other);
  };

  /** Of so many from or to the bank those that the whole room lacks or has too many; left over may be just that. */
  const thriftyOf = (pieces, source, target, place, tooMany) => {
    const most = source.pile.at === "bank" ? -tooMany : tooMany;
    const trays = Math.max(source.many, target.many);
    const few = new Set(pieces.filter((more) => more * trays <= most));
    const ofLeftOver = [source.pile.at, target.pile.at].includes("left-over");
    if (ofLeftOver && most > 0 && most <= holds(source.pile, place)) few.add(most);
    return [...few].sort((one, other) => one - other);
  };

  sharing.shortest = { shortest };
}
