// What people are told where no single slip explains what is seen.
"use strict";
{
  const { digitsOf, placesHeld } = sharing.places;
  const { offBy } = sharing.observations;
  const { byWhatIsSeen, surelyThere } = sharing.whateverHappened;
  const { say } = sharing.phrases;
  const { material } = sharing.numberWords;
  const { repairSentences } = sharing.repairWords;

  /**
   * Sentences: count once more, look for what is missing, then make it right whatever has happened.
   * @type {(division: Division, seen: Observation) => string[]}
   */
  const unexplained = (division, seen) => {
    const repair = byWhatIsSeen(division, seen);
    const sentences = repairSentences(repair, division);
    if (!surelyThere(repair, seen)) {
      const beforeSharingOn = repair.filter((step) => !("shareOn" in step)).length;
      sentences.splice(beforeSharingOn, 0, say("unexplained.not-there"));
    }
    const mend = sentences.join(" ");
    const off = offBy(seen, division.dividend) ?? 0;
    const then = say(off < 0 ? "unexplained.none-missing" : "unexplained.still-so", { mend });
    return [say("unexplained.count-again"), ...search(off), then];
  };

  /**
   * Look for pieces worth what is missing, the smallest of them first; or for what too many may hide.
   * @type {(off: number) => string[]}
   */
  const search = (off) => {
    if (off > 0) return [say("unexplained.too-many")];
    if (!off) return [];
    const smallest = placesHeld(digitsOf(-off)).pop();
    const count = -off / 10 ** smallest;
    const stop = say(smallest ? "slips.stop-larger" : "slips.stop", { count, several: material(smallest, 2) });
    return [stop, say("unexplained.found", { count })];
  };

  sharing.unexplained = { unexplained };
}
