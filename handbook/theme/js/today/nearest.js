// Numbers near to one: those that are easier to share, and those that give another group the same kind of work.
"use strict";
{
  const { placesHeld, quotientOf } = sharing.places;
  const { numbers, reckon, zerosAsWanted } = sharing.numbers;
  const { isNumber, isGroup } = sharing.address;

  /** Of fewer pieces nothing can be shared. */
  const SMALLEST = 2;

  /**
   * kinds: "static" and "exact", or "alike"
   * @typedef {{kinds: string[], number: number, children: number, ribbons: boolean}} Near
   */

  /** @type {(asked: Asked) => Near[]} at most one of each kind, and one for each group next to this one */
  const nearestOf = ({ number, children, ribbons }) => {
    if (number < SMALLEST) return [];
    const found = [];
    const add = (kind, near, group = children) => {
      const known = found.find((one) => one.number === near && one.children === group);
      if (known) known.kinds.push(kind);
      else if (near !== null && (near !== number || group !== children)) {
        found.push({ kinds: [kind], number: near, children: group, ribbons });
      }
    };
    add("exact", nearestExact(number, children));
    if (ribbons) return found;
    add("static", nearest(number, sharedAsTheyLie(children)));
    for (const group of [children - 1, children + 1]) {
      if (isGroup(group, false)) add("alike", nearest(number, alike(number, children, group)), group);
    }
    return found;
  };

  const nearestExact = (number, children) => {
    const below = number - (number % children);
    const above = below + children;
    if (!below) return above;
    return number - below <= above - number || !isNumber(above) ? below : above;
  };

  const nearest = (number, candidates) =>
    candidates.reduce(
      (best, one) => (best === null || Math.abs(one - number) < Math.abs(best - number) ? one : best),
      null,
    );

  const choice = (exchangeFrom, remainder, digits, zeros = "any") => ({ exchangeFrom, remainder, zeros, digits });

  const sharedAsTheyLie = (children) => [1, 2, 3, 4].flatMap((digits) => numbers(children, choice([], "none", digits)));

  /**
   * Numbers of the same length that send pieces to the bank from the same places, with something left over or not, and
   * without a zero where there is none in this number and its share.
   */
  const alike = (number, children, group) => {
    const { left, digits } = reckon(number, children);
    const from = placesHeld(left).filter((place) => place > 0);
    const zeros = zerosAsWanted("none", String(number), String(quotientOf(number, children))) ? "none" : "any";
    return numbers(group, choice(from, left[0] ? "some" : "none", digits.length, zeros));
  };

  sharing.nearest = { SMALLEST, nearestOf };
}
