// One division in words, place by place and step by step: what the hands do, what lies where afterwards.
"use strict";
{
  const { UNITS, placesHeld, sum } = sharing.places;
  const { say, written } = sharing.phrases;
  const { placeWord, piece, onePiece, pieces, inARow, inClauses, listing, capital } = sharing.numberWords;
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

  /** @type {(stage: Stage, division: Division) => string} its figure, or that of a part, for those who do not see it */
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

  /** @type {(division: Division) => string} the figure of the end, for those who do not see it */
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
    [...new Set(stage.moments.map(({ place }) => place))].map((place) => {
      const times = stage.exchanged[place];
      const exchange = say("caption.exchange", {
        pieces: piece(times, place),
        smaller: piece(10 * times, place - 1),
      });
      if (!ribbons || !stage.rounds) return exchange;
      return say("caption.exchange-then", { when: capital(when(stage, place)), exchange });
    });

  /** "before rounds 2 and 7", "after the last round" */
  const when = (stage, place) => {
    const given = stage.moments.filter((moment) => moment.place === place).map(({ rounds }) => rounds);
    const before = given.filter((rounds) => rounds < stage.rounds).map((rounds) => written(rounds + 1));
    const told = [];
    if (before.length) {
      told.push(say("caption.before-rounds", { count: before.length, rounds: listing(before) }));
    }
    if (given.includes(stage.rounds)) told.push(say("caption.after-rounds"));
    return listing(told);
  };

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

  /** With ribbons: what each kind of sharer is dealt in a round at this level. */
  const served = (level, { mat, widths }) =>
    listing(
      widths.map((width) => {
        const given = { piece: onePiece(level + width), stands_for: 10 ** width, count: mat[width] };
        return say("hands.piece-with-ribbons", given);
      }),
    );

  sharing.stageWords = { stageHeading, stageAlternative, endAlternative, traysWords, served, hands };
}
