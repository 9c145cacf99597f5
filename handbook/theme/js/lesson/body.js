// The body of a lesson's page for any division: what is set out, every place, the cards at the close, the check.
"use strict";
{
  const { placeName } = sharing.places;
  const { placeWord } = sharing.numberWords;
  const { divisionName, lessonOf } = sharing.titles;
  const { opening } = sharing.spoken;
  const { layoutAlternative, cardsAlternative, product } = sharing.materialWords;
  const { toSetOut, roundsWithRibbons, cardsAtTheClose, putTogether } = sharing.lessonWords;
  const { endAlternative } = sharing.stageWords;
  const { laidInCards } = sharing.lessonCards;
  const { drawnMat, matSetOut } = sharing.mat;
  const { says, tick, part, figure, matKey, table } = sharing.lessonParts;
  const { element, say } = sharing.elements;

  const CAUTIONS = "reference/cautions.html";
  const WHO_HAS_HAD = "for-the-school/who-has-had.html";
  const ONLY_PRESENTED = ".only-presented.screen-only";

  /** @type {(division: Division, told: PlaceText[]) => HTMLElement[]} the parts, in the order of a lesson's page */
  const body = (division, told) => [setOut(division), ...places(division, told), finished(division), check(division)];

  const setOut = (division) => {
    const { dividend, sharers, ribbons } = division;
    const room = tick(say("lesson.room"), " (", element("a", { href: CAUTIONS }, say("lesson.cautions")), ").");
    const things = toSetOut(division);
    const list = element("ul.checklist.before-the-children-come", ...things.map((thing) => tick(thing)), room);
    const first = says("guide", [lessonOf(division)?.opening ?? opening(division)]);
    const told = element("div.words", list, first);
    const forAdults = () => [element("b", say("lesson.for-adults")), " ", roundsWithRibbons(division)];
    const rounds = ribbons ? [element("p.ribbon-rounds.before-the-children-come", ...forAdults())] : [];
    const heading = ribbons
      ? say("lesson.set-out-with-ribbons", { division: divisionName(division) })
      : say("lesson.set-out", { dividend, count: sharers });
    const shown = figure(layoutAlternative(division), matSetOut(division));
    const inTheMiddle = handsDo(ONLY_PRESENTED, things[0]);
    return part("set-out", heading, shown, told, ...rounds, inTheMiddle);
  };

  /** Every place with its figure; without exchanges one figure of the whole sharing stands below all places instead. */
  const places = (division, told) => {
    const { stages, exchanges, beginning, end } = division;
    const sections = told.map((place, index) => {
      const { level, heading, alternative, parts } = place;
      const stage = stages[index];
      const drawn = ({ before, after, endsTheSharing }, text) =>
        figure(text, drawnMat(division, before, after, endsTheSharing), matKey());
      const presented = (of, each) => moment(parts[each], `div${ONLY_PRESENTED}`, drawn(of, parts[each].alternative));
      const whole = drawn(stage, alternative);
      const shown = [
        ...(parts.length > 1 ? stage.parts.map(presented) : []),
        exchanges ? whole : element(`div${ONLY_PRESENTED}`, whole),
      ];
      return part(placeName(level), heading, ...shown, wordsAt(place), handsAt(place));
    });
    if (exchanges) return sections;
    const whole = figure(endAlternative(division), drawnMat(division, beginning, end, true), matKey());
    const heading = element("h2", { id: "all-shared" }, say("lesson.all-shared"));
    const shared = element("div.all-shared", heading, whole);
    return [element("div.static", element("div.places", ...sections), shared)];
  };

  /** What is shown on one screen of a place. */
  const moment = ({ id }, tag, ...content) => element(tag, { "data-moment": id }, ...content);

  const wordsAt = ({ parts }) => {
    const said = parts.filter((told) => told.said.length);
    return element("div.words", ...said.map((told) => moment(told, "div", ...speeches(told))));
  };

  const speeches = ({ said }) => said.map(({ who, sentences }) => says(who, sentences));

  const handsDo = (classes, ...told) =>
    element(`p.hands${classes}`, element("b", say("lesson.hands")), " ", ...told);

  const handsAt = ({ level, parts }) =>
    handsDo(
      "",
      ...parts.flatMap((told) => {
        const done = moment(told, "span", told.hands);
        if (told.id !== placeName(level)) done.id = `present-${told.id}`;
        return [done, " "];
      }),
    );

  const finished = (division) => {
    const sentences = cardsAtTheClose(division).map((sentence) => element("p", sentence));
    const shown = figure(cardsAlternative(division), laidInCards(division));
    return part("finished", say("lesson.finished"), shown, element("div.words", ...sentences));
  };

  const check = (division) => {
    const { dividend, quotient, remainder, exchanges, piecesNeeded } = division;
    const bringRest = quotient ? "lesson.bring-all-and-rest" : "lesson.bring-rest";
    const bring = say(remainder ? bringRest : "lesson.bring-all");
    const count = say(exchanges ? "lesson.change-up" : "lesson.count-by-kind");
    const countIn = piecesNeeded[0] ? ` ${say("lesson.count-in")}` : "";
    const writeDown = element("a", { href: WHO_HAS_HAD }, say("lesson.write-down"));
    const readBack = `${say("lesson.read-back", { dividend })}${countIn} `;
    const columns = ["place", "together", "changed-up", "stays"].map((name) => say(`lesson.check.${name}`));
    const heads = element("tr", ...columns.map((column) => element("th", { scope: "col" }, column)));
    const rows = putTogether(division).map(({ place, together, changed, stays }) =>
      element(
        "tr",
        element("th", { scope: "row" }, placeWord(place)),
        ...[together, changed || say("glance.nothing"), String(stays)].map((cell) => element("td", cell)),
      ),
    );
    const lines = element("tbody", ...rows);
    const caption = say("lesson.put-back-caption", { division: divisionName(division) });
    return part(
      "check",
      say("lesson.put-back", { product: product(division) }),
      element(
        "div.words",
        element("p", `${bring} ${count}`),
        element("p", readBack, element("span.screen-only", writeDown, ".")),
      ),
      element("div.beside", table("check-table", "", caption, element("thead", heads), lines)),
    );
  };

  sharing.lessonBody = { body };
}
