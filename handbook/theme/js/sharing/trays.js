// What lies on the trays: the share of each, and what some have more or less than the others.
"use strict";
{
  const { valueOf, sum, placesHeld, plus, raised } = sharing.places;

  /**
   * Trays that hold the same: how many sharers, what each stands for, what each has.
   * @typedef {{sharers: number, stands_for: number, holds: Counts}} Tray
   */

  /**
   * How many sharers who stand for 10^width have so many pieces of a place more than the others, below zero: less;
   * instead: a place of which they have as many less (or more) for it.
   * @typedef {{width: number, sharers: number, place: number, pieces: number, instead?: number}} Difference
   */

  /** @type {(mat: Counts, level: number, many: number) => Difference[]} the first so many have one piece more */
  const firstServed = (mat, level, many) => {
    const first = [];
    for (const width of placesHeld(mat)) {
      const sharers = Math.min(many, mat[width]);
      many -= sharers;
      if (sharers) first.push({ width, sharers, place: level + width, pieces: 1 });
    }
    return first;
  };

  /** What lies on the trays of those who differ, where the others have `holds`. */
  const changed = (holds, { place, pieces, instead }) => {
    const more = plus(holds, place, pieces);
    return instead === undefined ? more : plus(more, instead, -pieces);
  };

  /** @type {(mat: Counts, share: Counts, differences?: Difference[]) => Tray[]} equal trays together */
  const everyTray = (mat, share, differences = []) =>
    placesHeld(mat).flatMap((width) => {
      const holds = raised(share, width);
      const mine = differences.filter((one) => one.width === width);
      const others = mat[width] - sum(mine.map((one) => one.sharers));
      const groups = mine.map((one) => ({ sharers: one.sharers, holds: changed(holds, one) }));
      return [...groups, { sharers: others, holds }]
        .sort((one, other) => valueOf(other.holds) - valueOf(one.holds))
        .filter(({ sharers }) => sharers)
        .map((group) => ({ sharers: group.sharers, stands_for: 10 ** width, holds: group.holds }));
    });

  sharing.trays = { firstServed, everyTray };
}
