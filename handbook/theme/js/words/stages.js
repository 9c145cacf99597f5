// A place of a division in words: its heading, and the alternative text of its figure.
"use strict";
{
  const { UNITS, placesHeld, sum } = sharing.places;
  const { say, written } = sharing.phrases;
  const { placeWord, piece, pieces, inARow, inClauses, listing, capital } = sharing.numberWords;
  const { leftOver } = sharing.materialWords;

  /** @type {(stage: Stage, division: Division) => string} "Thousands: 1 each, 1 to the bank" */
  const stageHeading = (stage, division) => {
    const place = capital(placeWord(stage.level));
    const dealt = say(headingKey(stage, division), { place, rounds: stage.rounds, count: division.mat[UNITS] });
    const parts = [dealt, ...toBank(stage)];
    if (stage.level === UNITS && division.remainder) {
      parts.push(say("title.left-over", { remainder: division.remainder }));
    }
    return inARow(parts);
  };

  const headingKey = ({ rounds, unfinished }, { ribbons, mat }) => {
    if (ribbons) return `heading.${rounds ? "rounds" : "none"}-${mat[UNITS] ? "with-ribbons" : "nobody-for-one"}`;
    if (rounds) return "heading.rounds";
    return unfinished ? "heading.too-few" : "heading.nothing";
  };

  const toBank = ({ exchanged, level }) =>
    placesHeld(exchanged).map((place) => {
      const times = exchanged[place];
      const named = place === level ? written(times) : piece(times, place);
      return say("heading.to-bank", { pieces: named });
    });

  /** @type {(stage: Stage, division: Division) => string} alternative text of its figure, or of a part's */
  const stageAlternative = (stage, division) => {
    const trays = traysWords(stage.after, division);
    const lies = stage.endsTheSharing ? "alternative.left-over" : "alternative.middle";
    return [
      say(onTraysThen(stage), { count: stage.rounds, pieces: pieces(stage.start), trays }),
      ...exchanges(stage, division),
      say(lies, { pieces: pieces(stage.end) }),
    ].join(" ");
  };

  const onTraysThen = ({ atTheBank, goesOn }) => {
    if (atTheBank) return "alternative.at-the-bank";
    return goesOn ? "alternative.after-rounds" : "alternative.stage";
  };

  /** @type {(division: Division) => string} alternative text of the figure of the end */
  const endAlternative = (division) =>
    `${say("alternative.end", { trays: traysWords(division.end, division) })} ${leftOver(division)}`;

  /** @type {(state: State, division: Division) => string} what every tray holds */
  const traysWords = (state, division) =>
    inClauses(division.trays(state).map((tray, _, trays) => trayWords(tray, trays, division)));

  const trayWords = ({ sharers, stands_for, holds }, trays, { ribbons }) => {
    const areAll = trays.filter((other) => other.stands_for === stands_for).length === 1;
    const withRibbons = areAll ? "alternative.trays-with-ribbons" : "alternative.some-trays-with-ribbons";
    const plain = sum(holds) ? "alternative.trays" : "alternative.trays-empty";
    return say(ribbons ? withRibbons : plain, {
      count: sharers,
      stands_for,
      pieces: pieces(holds),
    });
  };

  const exchanges = (stage, { ribbons }) =>
    [...new Set(stage.trips.map(({ place }) => place))].map((place) => {
      const times = stage.exchanged[place];
      const exchange = say("alternative.exchange", {
        pieces: piece(times, place),
        smaller: piece(10 * times, place - 1),
      });
      if (!ribbons || !stage.rounds) return exchange;
      return say("alternative.exchange-then", { when: capital(when(stage, place)), exchange });
    });

  /** "before rounds 2 and 7", "after the last round" */
  const when = (stage, place) => {
    const given = stage.trips.filter((trip) => trip.place === place).map(({ rounds }) => rounds);
    const before = given.filter((rounds) => rounds < stage.rounds).map((rounds) => written(rounds + 1));
    const told = [];
    if (before.length) {
      told.push(say("alternative.before-rounds", { count: before.length, rounds: listing(before) }));
    }
    if (given.includes(stage.rounds)) told.push(say("alternative.after-the-last"));
    return listing(told);
  };

  sharing.stageWords = { stageHeading, stageAlternative, endAlternative, traysWords };
}
