// Slips in words: what may have happened, where to look, and what puts it right.
"use strict";
{
  const { UNITS, at } = sharing.places;
  const { placesNotShown } = sharing.whateverHappened;
  const { say, has, written } = sharing.phrases;
  const { material, placeWord, listing, capital } = sharing.numberWords;
  const { whatIsSeen, whoseTray } = sharing.materialWords;
  const { repairWords } = sharing.repairWords;

  const OF_CARDS = ["cards-swapped", "zero-forgotten"];

  /**
   * One cause in words; one phrase says when it may have happened, for all its occasions together.
   * @type {(cause: Cause, division: Division, causes: Cause[]) => {happened: string, look: string, mend: string}}
   */
  const explain = (cause, division, causes) => {
    const places = filled(cause, division);
    const tooFewLaid = causes.some(({ slip }) => slip === "laid-out-too-few");
    places.or_laid = tooFewLaid ? say("slips.or-laid") : "";
    places.laid = tooFewLaid ? say("slips.laid") : "";
    const tables = [`slip.${cause.slip}.${cause.occasions[0].spot}`, `slip.${cause.slip}`, "slip"];
    const ends = [
      division.ribbons && !division.mat[UNITS] && "-nobody-for-one",
      division.ribbons && "-with-ribbons",
      cause.place === UNITS && "-of-units",
      "",
    ].filter((end) => end !== false);
    // The most special sentence that the phrases have.
    const sentence = (part) => {
      const keys = tables.flatMap((table) => ends.map((end) => `${table}.${part}${end}`));
      return say(keys.find(has), places).trim();
    };
    return { happened: sentence("happened"), look: sentence("look"), mend: sentence("mend") };
  };

  /** Everything that a sentence about a slip may name. */
  const filled = (cause, division) => {
    const [{ many, spot, other: told }] = cause.occasions;
    const [place, other] = [cause.place ?? UNITS, told ?? UNITS];
    const smallest = division.widths.at(-1);
    const ofCards = OF_CARDS.includes(cause.slip);
    const higher = ofCards ? smallest : 0; // the share of one who stands for ten lies one place higher
    const several = material(place, 2);
    const turns = [...new Set(cause.occasions.map(({ turn }) => turn))].sort((one, next) => one - next);
    const changedFirst = placesNotShown(cause.advice).size ? [say("repair.not-there")] : [];
    const places = {
      count: many,
      one: material(place, 1),
      several,
      smaller: material(Math.max(place - 1, UNITS), 2),
      place: placeWord(place + higher),
      other_place: placeWord(other + higher),
      other_one: material(other, 1),
      other_several: material(other, 2),
      stands_for: 10 ** smallest,
      other_stands_for: 10 ** other,
      round: atRounds(turns, place, division),
      exchange: atExchanges(turns, place + 1, division),
      stop: say(place === UNITS ? "slips.stop" : "slips.stop-larger", { count: 1, several }),
      afresh: say("repair.everything-again"),
      whose: whoseTray(10 ** other, division.ribbons),
      repair: repairWords(cause.advice, division, changedFirst),
    };
    if (ofCards) {
      const ofOne = division.ribbons && spot === "one-tray";
      places.whose_cards = say(`slip.whose-cards.${spot}${ofOne ? "-with-ribbons" : ""}`, places);
    }
    if (cause.slip === "ribbon-given-same-kind" && cause.place) places.larger = 10 ** (smallest + place - other);
    return places;
  };

  /**
   * "in round 2 of the tens", "in the only round of the tens", which may be one that is taken back. Who looks first
   * begins none of those; a slip can happen in one all the same.
   */
  const atRounds = (possible, place, { steps, lookFirst }) => {
    const begun = steps.filter((step) => ["deal-round", "take-back"].includes(step.action) && step.place === place);
    const named = placeWord(place);
    const turns = lookFirst ? possible.filter((turn) => turn <= begun.length) : possible;
    if (!turns.length) return say("turn.rounds-begun", { place: named });
    if (turns.at(-1) !== 1 || begun.length !== 1) return inTurns("rounds", turns, begun.length, named);
    return say(begun[0].action === "take-back" ? "turn.rounds-unfinished" : "turn.rounds-only", { place: named });
  };

  /** "when the square was exchanged", "in one of the 3 exchanges of tens" */
  const atExchanges = (turns, place, division) => {
    const ofAll = at(division.exchanged, place);
    const last = turns.at(-1);
    const named = placeWord(place);
    if (last === 1) {
      const key = ofAll === 1 ? "turn.exchange-only" : "turn.exchange-first";
      return say(key, { one: material(place, 1), place: named });
    }
    if (turns.length === ofAll) return say("turn.exchanges-all", { last, place: named });
    return inTurns("exchanges", turns, ofAll, named);
  };

  const MOST_TURNS_LISTED = 2;

  /** "in round 2 or 3 of the units", "in one of the first 8 rounds of the units": where it can have happened */
  const inTurns = (what, turns, ofAll, place) => {
    const first = turns[0];
    const last = turns.at(-1);
    if (turns.length > MOST_TURNS_LISTED && last - first === turns.length - 1) {
      const which = first > 1 ? "from-to" : last < ofAll ? "first" : "all";
      return say(`turn.${what}-${which}`, { first, last, place });
    }
    const listed = turns.map((turn) => written(turn));
    return say(`turn.${what}`, { turns: listing(listed, "list.or"), place });
  };

  const MOST_CAUSES = 3;
  const ONE_BEAD_SHORT = -1;

  /**
   * One symptom with its likeliest causes, each repair once: what is seen, what may have happened, where to look, what
   * puts it right.
   * @type {(symptom: Object, division: Division) =>
   *   {seen: string, happened: string[], look: string, mends: string[]}}
   */
  const symptomRow = (symptom, division) => {
    const likeliest = eachEventOnce(symptom.causes).slice(0, MOST_CAUSES);
    const causes = likeliest.map((cause) => ({ ...cause, ...explain(cause, division, symptom.causes) }));
    const isLost = ({ slip }) => symptom.offBy === ONE_BEAD_SHORT && slip === "piece-rolled-away";
    const ordered = [...causes].sort((one, other) => isLost(other) - isLost(one));
    return {
      seen: symptomWords(symptom, division),
      happened: orElse(causes.map(({ happened }) => happened)),
      look: causes[0].look,
      mends: orElse(eachRepairOnce(ordered).map(({ mend }) => mend)),
    };
  };

  /** The causes without a last round not taken back: "left over dealt" among them is the same event. */
  const eachEventOnce = (causes) =>
    causes.filter(({ slip, place }) => slip !== "round-not-taken-back" || place > UNITS);

  /**
   * What is done first on a sheet where a piece may be lost; "" where none can be.
   * @type {(symptom: Object) => string}
   */
  const firstOnPaper = ({ offBy, causes }) => {
    if (offBy === ONE_BEAD_SHORT) return say("slips.stop-in-short");
    const lost = causes.find(({ slip }) => slip === "piece-rolled-away");
    return lost ? say("slips.may-be-lost", { several: material(lost.place, 2) }) : "";
  };

  /** Different sentences, each once; all but the first begin with "Or". */
  const orElse = (sentences) => {
    const [first, ...others] = new Set(sentences);
    return [first, ...others.map((told) => say("slips.or", { told }))];
  };

  /** One cause for each repair; a lost piece that was found counts like one from the bank, and its cause is kept. */
  const eachRepairOnce = (causes) => {
    const kept = new Map();
    for (const cause of causes) {
      const repair = fromTheBank(cause.advice);
      if (!kept.has(repair) || cause.slip === "piece-rolled-away") kept.set(repair, cause);
    }
    return [...kept.values()];
  };

  /** The repair with the bank in place of the floor, without a movement from there to the bank itself, as a key. */
  const fromTheBank = (repair) =>
    JSON.stringify(
      repair
        .map((step) => (step.source === "floor" ? { ...step, source: "bank" } : step))
        .filter((step) => !step.source || step.source !== step.target),
    );

  /** What the room sees at the close, and by how much it is too much or too little in all. */
  const symptomWords = ({ seen, left, offBy, causes }, { ribbons, end }) => {
    if (causes.every(({ slip }) => slip === "big-tray-read")) {
      return say("slips.answer-read", { value: seen.trays.at(-1).value });
    }
    const read = capital(whatIsSeen(seen, ribbons, left, end.middle));
    const ofCards = causes.every(({ slip }) => OF_CARDS.includes(slip));
    if (ofCards) return say("slips.on-the-cards", { seen: read });
    if (!offBy) return read;
    return say(offBy > 0 ? "slips.too-much" : "slips.too-little", { seen: read, off_by: Math.abs(offBy) });
  };

  sharing.slipWords = { explain, symptomRow, eachEventOnce, firstOnPaper };
}
