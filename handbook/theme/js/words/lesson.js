// The words of a lesson's page: what is set out, every place, the cards at the close, putting the shares together.
"use strict";
{
  const { UNITS, placeName, placesHeld, digitsOf, sum, quotientOf } = sharing.places;
  const { cards, needs } = sharing.shelf;
  const { say } = sharing.phrases;
  const { numberWords, placeWord, standsForWord, material, piece, pieces, listing, inClauses, capital } =
    sharing.numberWords;
  const { cardsNamed, ribbonsWorn, smallCards, trays } = sharing.materialWords;
  const { handsAt } = sharing.handWords;
  const { saidInParts } = sharing.spoken;
  const { stageHeading, stageAlternative } = sharing.stageWords;

  /**
   * A part of a place in words: what is said, by speaker; what the hands do; its figure's alternative text. id: of its
   * screen.
   * @typedef {{id: string, atTheBank: boolean, said: {who: string, sentences: string[]}[], hands: string,
   *   alternative: string}} PartText
   */

  /**
   * One place in words: its heading, the alternative text of its whole figure, and its parts.
   * @typedef {{level: number, heading: string, alternative: string, parts: PartText[]}} PlaceText
   */

  /** @type {(division: Division) => PlaceText[]} every place from the largest to the units */
  const placeTexts = (division) => division.stages.map((stage) => placeText(division, stage));

  const placeText = (division, stage) => {
    const said = saidInParts(division, stage);
    const hands = handsAt(division, stage);
    const parts = stage.parts.map((part, index, all) => {
      const { atTheBank } = part;
      const alike = all.slice(0, index).filter((before) => before.atTheBank === atTheBank).length;
      return {
        id: `${placeName(stage.level)}${atTheBank ? "-bank" : ""}${alike ? `-${alike + 1}` : ""}`,
        atTheBank,
        said: bySpeaker(said[index]),
        hands: hands[index],
        alternative: stageAlternative(part, division),
      };
    });
    const { level } = stage;
    return { level, heading: stageHeading(stage, division), alternative: stageAlternative(stage, division), parts };
  };

  const bySpeaker = (lines) => {
    const speeches = [];
    for (const { who, text } of lines) {
      const last = speeches.at(-1);
      if (last?.who === who) last.sentences.push(text);
      else speeches.push({ who, sentences: [text] });
    }
    return speeches;
  };

  /** @type {(division: Division) => string[]} what lies ready before the children come */
  const toSetOut = (division) => {
    const { largeCards, smallCards: fetched } = needs(division);
    const bank = division.fromBank;
    return [
      say("lesson.number", { count: sum(division.start), pieces: pieces(division.start) }),
      say(division.ribbons ? "lesson.large-cards-with-ribbons" : "lesson.large-cards", {
        cards: cardsNamed(largeCards),
        divisor: division.divisor,
      }),
      trays(division),
      division.ribbons && ribbonsWorn(division),
      say(sum(bank) ? "lesson.bank" : "lesson.no-bank", { pieces: pieces(bank) }) +
        (bank[0] ? say("lesson.bank-cup") : ""),
      say(division.quotient ? "lesson.small-cards" : "lesson.no-small-cards", { cards: smallCards(fetched, division) }),
      division.remainder && say("lesson.dish"),
    ].filter(Boolean);
  };

  /** What each is given in a round, by the ribbons that are worn, and what is done where that is not enough. */
  const roundsWithRibbons = ({ widths, lookFirst, exchanges }) => {
    const [larger, smallest] = [widths.slice(0, -1), widths.at(-1)];
    const bank = exchanges ? say("lesson.rounds-bank") : "";
    if (!larger.length) return say("lesson.rounds", { alike: say("lesson.rounds-alike"), told: "", bank });
    const clauses = [...larger].reverse().map((width) =>
      say("lesson.rounds-larger", {
        stands_for: standsForWord(width),
        times: standsForWord(width - smallest),
        smallest: standsForWord(smallest),
      }),
    );
    const told = say("lesson.rounds-differ", { larger: capital(inClauses(clauses)) });
    const end = say(`lesson.rounds-${lookFirst ? "look-first" : "take-back"}`);
    const tooFew = exchanges ? say("lesson.rounds-too-few", { end }) : "";
    return say("lesson.rounds", { alike: "", told: told + tooFew, bank });
  };

  /** @type {(division: Division) => string[]} who fetches which small cards, and what they say */
  const cardsAtTheClose = (division) => {
    const { quotient, remainder, ribbons } = division;
    if (!quotient) return [say("lesson.no-card", { count: remainder })];
    const apart = remainder ? [say("lesson.stays-apart", { pieces: pieces(division.end.middle) })] : [];
    return [...(ribbons ? cardsWithRibbons(division) : cardsOfAll(division)), ...apart];
  };

  const cardsWithRibbons = (division) => [
    ...needs(division).smallCards.map(({ stands_for, cards }) =>
      say(stands_for === 1 ? "lesson.fetches" : "lesson.fetches-with-ribbon", {
        stands_for,
        cards: cardsNamed(cards),
      }),
    ),
    answer(division),
  ];

  /** The share of a child for one; if there is none, what each of ten would have of the tray of a child for ten. */
  const answer = ({ mat, widths, quotient }) => {
    if (mat[UNITS]) return say("lesson.answer", { quotient });
    const width = widths.at(-1);
    const each = placesHeld(digitsOf(quotient)).map((place) => {
      const [smaller, larger] = [place, place + width].map((one) => material(one, 1));
      return say("lesson.one-for-every", { piece: smaller, larger });
    });
    const asked = { stands_for: standsForWord(width), each: capital(listing(each)), quotient };
    const fetched = say("lesson.fetches-answer", { cards: cardsNamed(cards(quotient)) });
    return `${say("lesson.answer-nobody-for-one", asked)} ${fetched}`;
  };

  const cardsOfAll = (division) => {
    const [{ cards }] = needs(division).smallCards;
    const quotient = numberWords(division.quotient);
    return [
      say("lesson.each-fetches", { cards: cardsNamed(cards), quotient }),
      digitsOf(division.quotient).includes(0) && say("lesson.zero-shows"),
    ].filter(Boolean);
  };

  /**
   * What is shown alone when a lesson is presented. Its link shows `shown`; for a place that is its number card.
   * @typedef {{id: string, shown: string, name: string}} Screen
   */

  /** @type {(places: PlaceText[]) => Screen[]} in order; every part of a place is one */
  const screens = (places) => {
    const named = (id) => ({ id, shown: say(`lesson.screen.${id}`), name: say(`lesson.screen.${id}`) });
    const ofPlaces = places.flatMap(({ level, parts }) => {
      const place = capital(placeWord(level));
      const atPlace = { shown: String(10 ** level), name: place };
      const atBank = { shown: say("lesson.screen.bank"), name: say("lesson.screen.to-bank", { place }) };
      return parts.map(({ id, atTheBank }) => ({ id, ...(atTheBank ? atBank : atPlace) }));
    });
    return [named("set-out"), ...ofPlaces, named("finished"), named("check")];
  };

  /**
   * Adding up all shares and what is left over, the units first. For every place: the sum in words, what is changed up
   * (ten of one place make one of the next) or "", and how many pieces stay.
   * @type {(division: Division) =>
   *   {place: number, together: string, changed: string, stays: number}[]}
   */
  const putTogether = (division) => {
    let broughtUp = 0;
    return division.outOfTheBank(division.end).map((out, place) => {
      const leftOver = division.end.middle[place];
      const all = out + broughtUp;
      const together = togetherWords(out - leftOver, leftOver, broughtUp);
      broughtUp = quotientOf(all, 10);
      const changed = broughtUp
        ? say("lesson.changed-up", { pieces: 10 * broughtUp, larger: piece(broughtUp, place + 1) })
        : "";
      return { place, together, changed, stays: all % 10 };
    });
  };

  /** "28 on the trays + 2 kept apart = 30", without summands of 0. */
  const togetherWords = (onTrays, leftOver, broughtUp) => {
    const named = [
      ["on-trays", onTrays],
      ["kept-apart", leftOver],
      ["brought-up", broughtUp],
    ];
    const parts = named
      .filter(([, number]) => number)
      .map(([name, number]) => say(`lesson.together.${name}`, { pieces: number }));
    if (parts.length < 2) return parts[0] ?? say("glance.nothing");
    const total = { parts: parts.join(say("lesson.together.plus")), pieces: onTrays + leftOver + broughtUp };
    return say("lesson.together.sum", total);
  };

  sharing.lessonWords = { screens, placeTexts, toSetOut, roundsWithRibbons, cardsAtTheClose, putTogether };
}
