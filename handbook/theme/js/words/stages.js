// One division in words, place by place and step by step: what the hands do, what lies where afterwards.
"use strict";
((sharing) => {
  const { UNITS, placesHeld, sum } = sharing.places;
  const { say, written } = sharing.phrases;
  const { placeWord, piece, onePiece, pieces, inARow, inClauses, listing, capital } = sharing.numberWords;

  /** @type {(words: Phrases, stage: Stage, division: Division) => string} "Thousands: 1 each, 1 to the bank" */
  const stageHeading = (words, stage, division) => {
    const place = capital(placeWord(words, stage.level));
    const parts = [say(words, headingKey(stage, division), { place, rounds: stage.rounds, count: division.mat[UNITS] }), ...toBank(words, stage)];
    if (stage.level === UNITS && division.remainder) {
      parts.push(say(words, "heading.left-over", { remainder: division.remainder }));
    }
    return inARow(words, parts);
  };

  const headingKey = ({ rounds, unfinished }, { ribbons, mat }) => {
    if (ribbons) return `heading.${rounds ? "rounds" : "none"}-${mat[UNITS] ? "with-ribbons" : "nobody-for-one"}`;
    if (rounds) return "heading.rounds";
    return unfinished ? "heading.too-few" : "heading.nothing";
  };

  const toBank = (words, { exchanged, level }) =>
    placesHeld(exchanged).map((place) => {
      const times = exchanged[place];
      const named = place === level ? written(words.grouping, times) : piece(words, times, place);
      return say(words, "heading.to-bank", { pieces: named });
    });

  /** @type {(words: Phrases, stage: Stage, division: Division) => string} its figure, for those who do not see it */
  const stageAlternative = (words, stage, division) => {
    const trays = traysWords(words, stage.steps[stage.steps.length - 1].after, division);
    const lies = stage.level === UNITS ? "alternative.left-over" : "alternative.middle";
    return [
      say(words, "alternative.stage", { pieces: pieces(words, stage.start), trays }),
      ...exchanges(words, stage, division),
      say(words, lies, { pieces: pieces(words, stage.end) }),
    ].join(" ");
  };

  /** @type {(words: Phrases, division: Division) => string} the figure of the end, for those who do not see it */
  const endAlternative = (words, division) =>
    say(words, division.remainder ? "alternative.end-and-rest" : "alternative.end", {
      trays: traysWords(words, division.end, division),
      pieces: pieces(words, division.end.middle),
    });

  const traysWords = (words, state, division) =>
    inClauses(words, division.trays(state).map((tray) => trayWords(words, tray, division)));

  const trayWords = (words, { sharers, stands_for, holds }, { ribbons }) => {
    const plain = sum(holds) ? "alternative.trays" : "alternative.trays-empty";
    return say(words, ribbons ? "alternative.trays-with-ribbons" : plain, {
      count: sharers,
      stands_for,
      pieces: pieces(words, holds),
    });
  };

  const exchanges = (words, stage, { ribbons }) =>
    placesHeld(stage.exchanged).map((place) => {
      const times = stage.exchanged[place];
      const exchange = say(words, "caption.exchange", {
        pieces: piece(words, times, place),
        smaller: piece(words, 10 * times, place - 1),
      });
      if (!ribbons || !stage.rounds) return exchange;
      return say(words, "caption.exchange-then", { when: capital(when(words, stage, place)), exchange });
    });

  /**
   * When something is exchanged at a place: so many pieces of a place, when so many rounds had been given out.
   * @type {(stage: Stage) => {place: number, times: number, rounds: number}[]}
   */
  const moments = ({ steps, level }) => {
    const found = [];
    for (const { action, place, after } of steps) {
      if (action !== "exchange") continue;
      const rounds = after.share[level];
      const last = found[found.length - 1];
      if (last?.place === place && last.rounds === rounds) last.times += 1;
      else found.push({ place, times: 1, rounds });
    }
    return found;
  };

  /** "before rounds 2 and 7", "after the last round" */
  const when = (words, stage, place) => {
    const given = moments(stage).filter((moment) => moment.place === place).map(({ rounds }) => rounds);
    const before = given.filter((rounds) => rounds < stage.rounds).map((rounds) => written(words.grouping, rounds + 1));
    const told = [];
    if (before.length) {
      told.push(say(words, "caption.before-rounds", { count: before.length, rounds: listing(words, before) }));
    }
    if (given.includes(stage.rounds)) told.push(say(words, "caption.after-rounds"));
    return listing(words, told);
  };

  /** @type {(words: Phrases, step: Step, division: Division) => string} "" where they only go on to the next place */
  const hands = (words, step, division) => {
    const { level, ahead, middle } = step.after;
    switch (step.action) {
      case "deal-round":
        return division.ribbons
          ? say(words, "hands.deal-with-ribbons", { pieces: served(words, level, division) })
          : say(words, "hands.deal", { piece: onePiece(words, level) });
      case "start-round":
        return say(words, "hands.start", { reached: ahead, sharers: division.sharers });
      case "take-back":
        return say(words, "hands.take-back");
      case "exchange":
        return say(words, "hands.exchange", {
          one: onePiece(words, step.place),
          smaller: placeWord(words, step.place - 1),
        });
      case "set-aside":
        return say(words, "hands.set-aside", { pieces: pieces(words, middle) });
      case "nothing-here":
        return say(words, division.ribbons ? "hands.nothing-with-ribbons" : "hands.nothing", {
          place: placeWord(words, level),
        });
      default:
        return "";
    }
  };

  /** With ribbons: what each kind of sharer is dealt in a round at this level. */
  const served = (words, level, { mat }) =>
    listing(
      words,
      placesHeld(mat).map((width) => {
        const given = { piece: onePiece(words, level + width), stands_for: 10 ** width, count: mat[width] };
        return say(words, "hands.piece-with-ribbons", given);
      }),
    );

  sharing.stageWords = { stageHeading, stageAlternative, endAlternative, moments, served, hands };
})((globalThis.sharing ??= {}));
