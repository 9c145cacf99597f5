// Numbers near to one: those that are easier to share, and those that give another group the same kind of work.
"use strict";
{
  const { placesHeld } = sharing.places;
  const { numbers, reckon } = sharing.numbers;
  const { isNumber, isGroup } = sharing.address;

  /**
   * kind: "static", "exact" or "alike"
   * @typedef {{kind: string, number: number, children: number, ribbons: boolean}} Near
   */

  /** @type {(asked: Asked) => Near[]} at most one of each kind, and one for each group next to this one */
  const nearestOf = ({ number, children, ribbons }) => {
    const found = [{ kind: "exact", number: nearestExact(number, children), children, ribbons }];
    if (!ribbons) {
      const of = (kind, group, candidates) => ({ kind, number: nearest(number, candidates), children: group, ribbons });
      found.push(of("static", children, sharedAsTheyLie(children)));
      for (const group of [children - 1, children + 1]) {
        if (isGroup(group, false)) found.push(of("alike", group, alike(number, children, group)));
      }
    }
    return found.filter((near) => near.number !== null && (near.number !== number || near.children !== children));
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

  const choice = (exchangeFrom, remainder, digits) => ({ exchangeFrom, remainder, zeros: "any", digits, shelf: null });

  const sharedAsTheyLie = (children) => [1, 2, 3, 4].flatMap((digits) => numbers(children, choice([], "none", digits)));

  /** Numbers of the same length that send pieces to the bank from the same places, with something left over or not. */
  const alike = (number, children, group) => {
    const { left, digits } = reckon(number, children);
    const from = placesHeld(left).filter((place) => place > 0);
    return numbers(group, choice(from, left[0] ? "some" : "none", digits.length));
  };

  sharing.nearest = { nearestOf };
}
