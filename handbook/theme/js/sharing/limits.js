// Which numbers and groups can be asked for: what the pieces and the room round a mat are enough for.
"use strict";
{
  const { digitsOf, sum } = sharing.places;

  const LARGEST_DIVIDEND = 9_999;
  const MOST_CHILDREN = 12;
  const LARGEST_DIVISOR = 999;

  /** @type {(number: number | null) => boolean} */
  const isNumber = (number) => number !== null && number >= 1 && number <= LARGEST_DIVIDEND;

  /** One child alone cannot share. */
  const isOnTheMat = (sharers) => sharers >= 2 && sharers <= MOST_CHILDREN;

  /** @type {(children: number | null, ribbons: boolean) => boolean} whether such a group can stand round the mat */
  const isGroup = (children, ribbons) => {
    if (children === null) return false;
    if (!ribbons) return isOnTheMat(children);
    return children >= 10 && children <= LARGEST_DIVISOR && isOnTheMat(sum(digitsOf(children)));
  };

  sharing.limits = { MOST_CHILDREN, isNumber, isGroup };
}
