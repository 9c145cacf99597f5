// A repair in words: what the hands do, one movement after the other.
"use strict";
{
  const { UNITS, digitsOf, placesHeld } = sharing.places;
  const { inAll } = sharing.repairMovements;
  const { say } = sharing.phrases;
  const { capital, listing, material, placeWord, smallNumber } = sharing.numberWords;
  const { whoseTray } = sharing.materialWords;

  /** What is done with a piece, by where it comes from; any other is brought, and to the bank every piece is taken. */
  const VERBS = { "left-over": "give", tray: "take" };

  /**
   * A sentence for every step, or one for all where everything goes back to the bank. Trays are told by what they read,
   * and where a movement has changed that, by what they read now; with ribbons also by whom they are for, because trays
   * for different numbers may read alike. Where everything goes back to the bank, no other movement is needed before
   * it.
   * @type {(repair: Repair, division: Division) => string[]}
   */
  const sentences = (repair, division) => {
    if (repair.some((step) => "again" in step && takesEverything(step, division))) {
      return [say("repair.everything-again")];
    }
    const changed = new Set();
    // What lies apart is called the middle if a larger piece comes or goes that is not left over, or if they share on.
    const isOfTheMiddle = ({ source, at, target, place, shareOn }) =>
      shareOn !== undefined ||
      (place > UNITS &&
        ((source ?? at) === "left-over" || (target === "left-over" && !division.end.middle[place])));
    const heap = repair.some(isOfTheMiddle) ? "middle" : "left-over";
    const name = (at) => (at === "left-over" ? heap : at);
    // Where it is shared out again, more trays may read the same than are taken from.
    const tray = repair.some((step) => "again" in step) ? "a-tray" : "tray";
    const spot = (at, trays) => {
      if (!trays) return say(`repair.${name(at)}`);
      const { sharers: count, value: reads, stands_for } = trays;
      const whose = whoseTray(stands_for, division.ribbons);
      const now = changed.has(nameOf(trays, 0)) ? say("repair.now") : "";
      return say(`repair.${tray}`, { count, reads, whose, now });
    };
    return repair.map((step) => {
      const told = stepWords(step, spot, name(step.target));
      readAfter(step).forEach((read) => changed.add(read));
      return told;
    });
  };

  /** Whether all pieces on trays go back; with ribbons always, because a round gives pieces of several places. */
  const takesEverything = ({ again }, { ribbons, quotient }) => ribbons || quotient < 10 ** (again + 1);

  /**
   * What to do, in one line; "" where no piece is moved. besides: sentences that follow the movements, before those
   * about sharing on or again.
   * @type {(repair: Repair, division: Division, besides?: string[]) => string}
   */
  const repairWords = (repair, division, besides = []) => {
    const told = sentences(repair, division);
    const moved = repair.filter((step) => !("again" in step || "shareOn" in step)).length;
    if (told.length === repair.length) told.splice(moved, 0, ...besides);
    return told.join(" ");
  };

  const nameOf = ({ stands_for, value }, more) => `${stands_for} ${value + more}`;

  /** The trays that a movement changes: what each stands for and what it reads then. */
  const readAfter = ({ pieces, place, giving, taking }) => {
    const worth = pieces * 10 ** place;
    return [giving && nameOf(giving, -worth), taking && nameOf(taking, worth)];
  };

  const stepWords = (step, spot, target) => {
    if ("changePlaces" in step) {
      return say("repair.change-places", { number: capital(smallNumber(step.changePlaces)) });
    }
    if ("refill" in step) {
      const due = digitsOf(step.refill);
      const given = listing(placesHeld(due).map((place) => pieces(due[place], place)));
      return say("repair.refill", { count: step.trays.sharers, target: spot("tray", step.trays), pieces: given });
    }
    if ("shareOn" in step) return say("repair.share-on");
    if ("again" in step) {
      return say(step.again ? "repair.again" : "repair.again-units", { place: placeWord(step.again) });
    }
    if ("exchange" in step) {
      const down = step.exchange === 1;
      const large = down ? step.place : step.place + 1;
      return say(down ? "repair.down" : "repair.up", {
        large: pieces(1, large),
        small: pieces(10, large - 1),
        source: spot(step.at, step.trays),
      });
    }
    if (step.source === "floor") {
      const one = material(step.place, 1);
      if (target === "bank") return say("repair.found-of-bank", { one });
      const where = say(`repair.where.${target}`, { target: spot(step.target, step.taking) });
      return say("repair.found", { one, where });
    }
    const fromEachForEach = step.giving?.sharers > 1 && step.taking?.sharers > 1;
    return say(fromEachForEach ? "repair.take-for-each" : `repair.${verb(step, target)}`, {
      count: inAll(step),
      pieces: pieces(step.pieces, step.place),
      source: spot(step.source, step.giving),
      number: smallNumber(step.pieces),
      target: spot(step.target, step.taking),
    });
  };

  const verb = ({ source }, target) => {
    if (target === "left-over") return "to-left-over";
    return target === "bank" ? "take" : (VERBS[source] ?? "bring");
  };

  /** "one bar", "three unit beads" */
  const pieces = (number, place) =>
    say("repair.pieces", { number: smallNumber(number), material: material(place, number) });

  sharing.repairWords = { repairWords };
}
