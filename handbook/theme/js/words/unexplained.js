// What people are told where no single slip explains what is seen.
"use strict";
{
  const { digitsOf, placesHeld, sum, at } = sharing.places;
  const { TEN, inAll } = sharing.repairMovements;
  const { offBy } = sharing.observations;
  const { byWhatIsSeen, surelyThere } = sharing.whateverHappened;
  const { say } = sharing.phrases;
  const { material } = sharing.numberWords;
  const { repairWords } = sharing.repairWords;

  /**
   * Sentences: count once more, look for what is missing, then make it right whatever has happened.
   * @type {(division: Division, seen: Observation) => string[]}
   */
  const unexplained = (division, seen) => {
    const repair = byWhatIsSeen(division, seen);
    const sharesOn = repair.some((step) => "shareOn" in step);
    const mend = repairWords(repair, division, [
      ...(!surelyThere(repair, seen) || (sharesOn && division.ribbons) ? [say("repair.not-there")] : []),
      ...(makesTen(repair) ? [say("repair.ten-of-a-kind")] : []),
    ]);
    const off = offBy(seen, division.dividend) ?? 0;
    const then = say(off < 0 ? "unexplained.none-missing" : "unexplained.still-so", { mend });
    return [say("unexplained.count-again"), ...search(repair, off), then];
  };

  /** Whether a tray is brought so many pieces that it may hold ten or more of a kind. */
  const makesTen = (repair) =>
    repair.some((step) => {
      if (!step.taking) return false;
      return at(digitsOf(step.taking.value), step.place) + inAll(step) / step.taking.sharers >= TEN;
    });

  /**
   * Look for what is missing, the smallest pieces first, or for what too many may hide. Larger pieces than beads are
   * those that would come from the bank: 90 too little is a square less and a bar more.
   * @type {(repair: Repair, off: number) => string[]}
   */
  const search = (repair, off) => {
    if (off > 0) return [say("unexplained.too-many")];
    if (!off) return [];
    let smallest = placesHeld(digitsOf(-off)).pop();
    let count = -off / 10 ** smallest;
    const brought = repair.filter(({ source }) => source === "bank");
    if (smallest && brought.length) {
      smallest = Math.min(...brought.map(({ place }) => place));
      count = sum(brought.filter(({ place }) => place === smallest).map(inAll));
    }
    const stop = say(smallest ? "slips.stop-larger" : "slips.stop", { count, several: material(smallest, 2) });
    return [stop, say("unexplained.found", { count })];
  };

  sharing.unexplained = { unexplained };
}
