// What the room sees at the close: what is read on the trays, and what is left over.
"use strict";
{
  const { valueOf, sum } = sharing.places;

  /**
   * Trays that read the same: the value read, how many sharers, what each of them stands for.
   * @typedef {{value: number, sharers: number, stands_for: number}} Reading
   */

  /**
   * The trays as `readings` puts them together, and the value left over (null: nobody counted it).
   * @typedef {{trays: Reading[], left: number | null}} Observation
   */

  /** @type {(trays: Reading[]) => Reading[]} equal ones merged; the largest ribbon first, then the largest value */
  const readings = (trays) => {
    const together = new Map();
    for (const { value, sharers, stands_for } of trays) {
      const key = `${stands_for}:${value}`;
      if (!together.has(key)) together.set(key, { value, sharers: 0, stands_for });
      together.get(key).sharers += sharers;
    }
    return [...together.values()]
      .filter((tray) => tray.sharers)
      .sort((one, other) => other.stands_for - one.stands_for || other.value - one.value);
  };

  /** @type {(trays: Tray[]) => Reading[]} what is read where the beads themselves are counted */
  const beadsOn = (trays) =>
    readings(trays.map(({ holds, sharers, stands_for }) => ({ value: valueOf(holds), sharers, stands_for })));

  /** @type {(seen: Observation) => string} the same text for the same trays and the same left over */
  const asText = ({ trays, left }) => `${traysAsText(trays)};${left}`;

  /** @type {(seen: Observation, room: Observation) => boolean} trays alone are compared where `seen.left` is null */
  const agree = (seen, room) =>
    (seen.left === null || seen.left === room.left) && traysAsText(seen.trays) === traysAsText(room.trays);

  const traysAsText = (trays) => trays.map((tray) => [tray.value, tray.sharers, tray.stands_for]).join(";");

  /** @type {(seen: Observation) => boolean} whether every tray reads `stands_for` times the same whole number */
  const isFair = ({ trays: [first, ...others] }) =>
    first.value % first.stands_for === 0 &&
    others.every(({ value, stands_for }) => value * first.stands_for === first.value * stands_for);

  /** @type {(seen: Observation, dividend: number) => number | null} all that is there minus the dividend, if known */
  const offBy = ({ trays, left }, dividend) =>
    left === null ? null : sum(trays.map((tray) => tray.value * tray.sharers)) + left - dividend;

  sharing.observations = { readings, beadsOn, asText, agree, isFair, offBy };
}
