// What people are told where no single slip explains what is seen.
"use strict";
{
  const { UNITS, digitsOf, placesHeld } = sharing.places;
  const { offBy } = sharing.observations;
  const { byWhatIsSeen } = sharing.repairs;
  const { say } = sharing.phrases;
  const { material } = sharing.numberWords;
  const { repairWords } = sharing.repairWords;

  /**
   * Sentences: count once more, look for what is missing, then make it right whatever has happened.
   * @type {(division: Division, seen: Observation) => string[]}
   */
  const unexplained = (division, seen) => {
    const { repair, goesOn } = byWhatIsSeen(division, seen);
    const takesFromMiddle = repair.some(({ source, place }) => source === "left-over" && place > UNITS);
    const mend = [
      repairWords(repair, division),
      ...(takesFromMiddle ? [say("unexplained.not-there")] : []),
      ...(goesOn ? [say("unexplained.then-share-on")] : []),
    ].join(" ");
    const missing = -(offBy(seen, division.dividend) ?? 0);
    const then = say(missing > 0 ? "unexplained.none-missing" : "unexplained.still-so", { mend });
    return [say("unexplained.count-again"), ...(missing > 0 ? [search(missing)] : []), then];
  };

  /** Look for pieces worth so much, the smallest of them first. */
  const search = (missing) => {
    const smallest = placesHeld(digitsOf(missing)).pop();
    const count = missing / 10 ** smallest;
    return say(smallest ? "slips.stop-larger" : "slips.stop", { count, several: material(smallest, 2) });
  };

  sharing.unexplained = { unexplained };
}
