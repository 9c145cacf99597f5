// Numbers near to one that the shelf has everything for: those that are easier to share, and those that give another
// group the same kind of work.
"use strict";
{
  const { placesHeld, quotientOf } = sharing.places;
  const { numbers, reckon, zerosAsWanted } = sharing.choosingNumbers;
  const { featuresOf } = sharing.features;
  const { workOut } = sharing.division;
  const { needs, shortages } = sharing.shelf;
  const { isGroup } = sharing.limits;

  /** The smallest number that two can share. */
  const SMALLEST = 2;

  /**
   * kinds: "static", "exact" and "same", or "alike" for another group
   * @typedef {{kinds: string[], number: number, children: number, ribbons: boolean}} Near
   */

  /**
   * At most one of each kind, and one for each group next to this one.
   * @type {(asked: Asked, shelf: Shelf) => Near[]}
   */
  const nearestOf = ({ number, children, ribbons }, shelf) => {
    if (number < SMALLEST) return [];
    const found = [];
    const add = (kind, near, group = children) => {
      const known = found.find((one) => one.number === near && one.children === group);
      if (known) known.kinds.push(kind);
      else if (near >= SMALLEST && (near !== number || group !== children)) {
        found.push({ kinds: [kind], number: near, children: group, ribbons });
      }
    };
    add("exact", nearest(number, ofEveryLength(children, null, ribbons ? null : shelf)));
    if (ribbons) {
      const lacking = (near) => shortages(needs(workOut(near, children, { ribbons })), shelf);
      return found.filter((one) => !lacking(one.number).length);
    }
    const likeIt = zerosAsWanted("none", String(number), "") ? "none" : "any";
    const asItLies = (zeros) => nearest(number, ofEveryLength(children, [], shelf, zeros));
    add("static", asItLies(likeIt) ?? asItLies("any"));
    for (const group of [children, children - 1, children + 1]) {
      const kind = group === children ? "same" : "alike";
      if (isGroup(group, false)) add(kind, nearest(number, alike(number, children, group, shelf)), group);
    }
    return found;
  };

  const nearest = (number, candidates) =>
    candidates.reduce(
      (best, one) => (best === null || Math.abs(one - number) < Math.abs(best - number) ? one : best),
      null,
    );

  /** Numbers of which nothing is left over. */
  const ofEveryLength = (children, exchangeFrom, shelf, zeros = "any") =>
    [1, 2, 3, 4].flatMap((digits) => numbers(children, { exchangeFrom, remainder: "none", zeros, digits, shelf }));

  /**
   * Numbers of the same length, with shares of the same length or none, that send pieces to the bank from the same
   * places, with something left over or not, with a zero in the number just where this one has one, and as many zeros
   * inside the share and at its end.
   */
  const alike = (number, children, group, shelf) => {
    const { left, digits } = reckon(number, children);
    const exchangeFrom = placesHeld(left).filter((place) => place > 0);
    const remainder = left[0] ? "some" : "none";
    const likeness = (one, sharers) => {
      const quotient = quotientOf(one, sharers);
      const { zerosInsideQuotient, zerosAtQuotientEnd } = featuresOf({ quotient });
      const zeros = [String(one).includes("0"), zerosInsideQuotient.length, zerosAtQuotientEnd.length];
      return [quotient && String(quotient).length, ...zeros].join();
    };
    const wanted = likeness(number, children);
    return numbers(group, { exchangeFrom, remainder, zeros: "any", digits: digits.length, shelf }).filter(
      (one) => likeness(one, group) === wanted,
    );
  };

  sharing.nearest = { SMALLEST, nearestOf };
}
