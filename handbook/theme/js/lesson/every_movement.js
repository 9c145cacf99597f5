// Every movement of a lesson in one table: what the hands do, and what lies where afterwards.
"use strict";
{
  const { valueOf, downFrom } = sharing.places;
  const { placeWord, capital } = sharing.numberWords;
  const { divisionName } = sharing.titles;
  const { hands } = sharing.handWords;
  const { table } = sharing.lessonParts;
  const { element, say, number, signed } = sharing.elements;

  /** @type {(division: Division) => HTMLElement} the table, folded; the bank is shown when asked for */
  const everyMovement = (division) => {
    const columns = {
      places: downFrom(division.start.length),
      widths: division.widths,
      banked: division.placesOfTheBank,
    };
    let counted = 0;
    const bodies = division.stages.map((stage) => {
      const rows = stage.movements.map((step) => row(division, columns, step, (counted += 1)));
      return element("tbody", placeRow(columns, stage.level), ...rows);
    });
    const caption = say("steps.caption", { division: divisionName(division) });
    return element(
      "details",
      { id: "every-movement" },
      element("summary", say("steps.fold", { count: counted })),
      ...(columns.banked.length ? [showBank()] : []),
      table("steps-table", ".steps", caption, heads(division, columns), ...bodies),
    );
  };

  const showBank = () =>
    element("label.show-bank.screen-only", element("input", { type: "checkbox" }), " ", say("steps.show-bank"));

  const heads = ({ ribbons }, { places, widths, banked }) => {
    const tall = (words) => element("th", { scope: "col", rowspan: 2 }, words);
    const ofPlace = (tag) => (place) => element(tag, { scope: "col" }, number(10 ** place));
    const trayKey = ribbons ? "steps.tray-for" : "steps.each-tray";
    const ofBank = { scope: "colgroup", colspan: banked.length };
    return element(
      "thead",
      element(
        "tr",
        tall(say("steps.hands")),
        element("th", { scope: "colgroup", colspan: places.length }, say("steps.middle")),
        ...widths.map((width) => tall(say(trayKey, { stands_for: 10 ** width }))),
        tall(say("steps.to-share")),
        ...(banked.length ? [element("th.of-bank", ofBank, say("steps.bank"))] : []),
      ),
      element("tr", ...places.map(ofPlace("th")), ...banked.map(ofPlace("th.of-bank"))),
    );
  };

  const placeRow = ({ places, widths, banked }, level) =>
    element(
      "tr",
      element(
        "th",
        { scope: "rowgroup", colspan: places.length + widths.length + 2 },
        capital(placeWord(level)),
      ),
      ...(banked.length ? [element("td.of-bank", { colspan: banked.length })] : []),
    );

  /** One movement. What is set aside is told with it, and lies in the middle no longer. */
  const row = (division, { places, widths, banked }, step, position) => {
    const { action, after } = step;
    const still = (count) => (action === "set-aside" ? 0 : count);
    const trays = division.trays(after);
    const bank = division.bank(after);
    return element(
      `tr.${action}`,
      element("th", { scope: "row" }, `${number(position)}. ${hands(step, division)}`),
      ...places
        .map((place) => still(after.middle[place]))
        .map((count) => element(count ? "td" : "td.nil", number(count))),
      ...widths.map((width) => trayCell(trays.filter(({ stands_for }) => stands_for === 10 ** width))),
      element("td", number(still(division.toShare(after)))),
      ...banked.map((place) => element(bank[place] ? "td.of-bank" : "td.of-bank.nil", signed(bank[place]))),
    );
  };

  const trayCell = (trays) => {
    if (trays.length === 1) return element("td", number(valueOf(trays[0].holds)));
    const told = trays.map(({ sharers, holds }) => say("steps.trays-have", { count: sharers, value: valueOf(holds) }));
    const parted = told.flatMap((have, index) => [index ? " " : "", element("span.whole", have)]);
    return element("td", ...parted);
  };

  sharing.lessonMovements = { everyMovement };
}
