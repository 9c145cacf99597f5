// What the hands do: in one movement, in rounds that follow each other, and at a whole place in one line.
"use strict";
{
  const { sum } = sharing.places;
  const { say, written } = sharing.phrases;
  const { capital, listing, onePiece, piece, pieces, placeWord } = sharing.numberWords;

  /** @type {(step: Step, division: Division) => string} "" where they only go on to the next place */
  const hands = (step, division) => {
    const { level, ahead, middle } = step.after;
    switch (step.action) {
      case "deal-round":
        return division.ribbons
          ? say("hands.deal-with-ribbons", { pieces: served(level, division) })
          : say("hands.deal", { piece: onePiece(level) });
      case "start-round":
        return say("hands.start", { reached: ahead, sharers: division.sharers });
      case "take-back":
        return say("hands.take-back");
      case "exchange":
        return say("hands.exchange", {
          one: onePiece(step.place),
          smaller: placeWord(step.place - 1),
        });
      case "set-aside":
        return say("hands.set-aside", { pieces: pieces(middle) });
      case "nothing-here":
        return say(division.ribbons ? "hands.nothing-with-ribbons" : "hands.nothing", {
          place: placeWord(level),
        });
      default:
        return "";
    }
  };

  /** @type {(level: number, division: Division) => string} with ribbons: who is given what in a round */
  const served = (level, { mat, widths }) =>
    listing(
      widths.map((width) => {
        const given = { piece: onePiece(level + width), stands_for: 10 ** width, count: mat[width] };
        return say("hands.piece-with-ribbons", given);
      }),
    );

  /** @type {(division: Division, stage: Stage) => string[]} a line for each part, and what then lies in the middle */
  const handsAt = (division, { parts }) => {
    const areSeveral = parts.some(({ goesOn, rounds }) => goesOn && rounds);
    return parts.map((part) => {
      const done = part.atTheBank ? atTheBank(part) : givenOut(division, part, areSeveral);
      return [...(done.length ? done : [say("at-place.nothing")]), then(part, !done.length)].join(" ");
    });
  };

  const atTheBank = (part) => (part.goesOn ? forARound(part.trips) : toBank(part.trips));

  /** The rounds of a part, with the trips to the bank that are too many to be parts of their own. */
  const givenOut = (division, part, isOneOfSeveral) => {
    const back = takenBack(division, part);
    if (isOneOfSeveral) return [numberedRounds(division, part), ...back];
    const trips = part.trips;
    const [before, between] = [trips.filter((trip) => !trip.rounds), trips.filter((trip) => trip.rounds)];
    return [...forARound(before), ...rounds(division, part, trips), ...forARound(between), ...back];
  };

  /** "Rounds 2 to 6: as in round 1." */
  const numberedRounds = (division, { level, before, after }) => {
    const [first, last] = [before.share[level] + 1, after.share[level]];
    const key = ["plan.round", "plan.two-rounds"][last - first] ?? "plan.rounds";
    return say(key, { first, last, given: first > 1 ? say("at-place.as-in-the-first") : served(level, division) });
  };

  const rounds = (division, { rounds: count, level }, trips) => {
    if (!count) return [];
    if (!division.ribbons) return [say("at-place.rounds", { count, pieces: piece(count, level) })];
    const withTrips = trips[0]?.rounds ? "at-place.rounds-with-trips" : "at-place.then-rounds-with-trips";
    const key = trips.length ? withTrips : "at-place.rounds-with-ribbons";
    return [say(key, { count, pieces: served(level, division) })];
  };

  const takenBack = ({ sharers }, { rounds, steps }) => {
    const start = steps.find(({ action }) => action === "start-round");
    if (!start) return [];
    const key = rounds ? "at-place.start-next" : "at-place.start";
    return [say(key, { reached: start.after.ahead, sharers }), say("at-place.take-back")];
  };

  /** Exchanges that rounds need; one sentence for equal exchanges before several rounds. */
  const forARound = (trips) => {
    const alike = new Map();
    for (const { place, times, rounds } of trips) {
      const key = `${place} ${times}`;
      if (!alike.has(key)) alike.set(key, { place, times, before: [] });
      alike.get(key).before.push(written(rounds + 1));
    }
    return [...alike.values()].map(({ place, times, before }, index, all) => {
      const told = { count: before.length, rounds: listing(before), exchange: exchange(place, times) };
      const goesOn = before.length === 1 && all[index - 1]?.before.join() === before.join();
      return say(goesOn ? "at-place.to-bank-then" : "at-place.to-bank-before-rounds", told);
    });
  };

  const toBank = (trips) =>
    trips.map(({ place, times }) => say("at-place.to-bank", { exchange: capital(exchange(place, times)) }));

  /** "take 2 hundreds to the bank, one at a time, and bring 10 tens back for each" */
  const exchange = (place, times) =>
    say("at-place.exchange", { count: times, pieces: piece(times, place), smaller: piece(10, place - 1) });

  const then = ({ endsTheSharing, end }, nothingMoves) => {
    const still = nothingMoves ? "still-" : "";
    if (!sum(end)) return say(`at-place.${still}empty`);
    return say(`at-place.${endsTheSharing ? "left-over" : `${still}middle`}`, { pieces: pieces(end) });
  };

  sharing.handWords = { hands, handsAt, served };
}
