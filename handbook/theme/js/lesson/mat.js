// The mat at one moment: bank, middle and trays in place columns that never move. What has just come is drawn full,
// what lay there before light, what has just gone dotted; as in the figures of the handbook, and with their pieces.
"use strict";
{
  const { TENS, HUNDREDS, placeName, downFrom, sum } = sharing.places;
  const { placeWord } = sharing.numberWords;
  const { element, say, signed } = sharing.elements;

  const SHAPES = ["bead", "bar", "square", "cube"];
  const BOWS = { 10: "bow-ten", 100: "bow-hundred" };

  /**
   * Pieces that stay, have come and have gone, by their look.
   * @type {(before: number, after: number) => [string, number][]}
   */
  const change = (before, after) => [
    ["light", Math.min(before, after)],
    ["full", Math.max(after - before, 0)],
    ["dotted", Math.max(before - after, 0)],
  ];

  /** @type {(division: Division) => Counts} the most pieces of each place that lie in the middle at one moment */
  const mostInTheMiddle = ({ start, steps }) =>
    start.map((laid, place) => Math.max(laid, ...steps.map(({ after }) => after.middle[place])));

  /**
   * Every tray, in the order of dealing.
   * @type {(division: Division, state: State) => {stands_for: number, holds: Counts}[]}
   */
  const trayByTray = (division, state) =>
    division.trays(state).flatMap(({ sharers, stands_for, holds }) => Array(sharers).fill({ stands_for, holds }));

  /**
   * The mat after a movement, and what that movement has changed; before the first, both states are the beginning.
   * @type {(division: Division, before: State, after: State, isAtTheEnd: boolean) => HTMLElement}
   */
  const drawnMat = (division, before, after, isAtTheEnd = false) => {
    const places = downFrom(division.start.length);
    const rows = [
      heads(places, division.widths.map((width) => after.level + width)),
      ...(division.exchanges ? [bank(division, places, before, after)] : []),
      middle(division, places, before, after, isAtTheEnd),
      ...trays(division, places, before, after),
    ];
    const many = division.sharers > 6 ? "many" : division.sharers > 4 ? "some" : "few";
    return element(`div.mat.places-${places.length}.${many}`, { "aria-hidden": "true" }, ...rows);
  };

  /** @type {(division: Division) => HTMLElement} pieces and cards as they are set out, and what the bank has ready */
  const matSetOut = (division) => {
    const { start, beginning, fromBank: ready } = division;
    const mat = drawnMat(division, beginning, beginning);
    for (const head of mat.querySelectorAll(".now")) head.classList.remove("now");
    const [inTheMiddle, atTheBank] = [".middle", ".bank"].map((row) => mat.querySelectorAll(`${row} .tally`));
    downFrom(start.length).forEach((place, column) => {
      if (start[place]) inTheMiddle[column].replaceChildren(card(start[place], place));
      if (ready[place]) atTheBank[column].replaceChildren(...readyWords(ready[place]));
    });
    return mat;
  };

  /** A column of a phone has no room for the word. */
  const readyWords = (count) => [
    element("span.in-full", say("figure.ready", { count })),
    element("span.in-short", String(count)),
  ];

  const card = (count, place) =>
    element("span.number-card", element(`span.${placeName(place)}`, String(count * 10 ** place)));

  const heads = (places, active) =>
    element(
      "div.heads",
      element("span"),
      ...places.map((place) =>
        element(`strong.${placeName(place)}${active.includes(place) ? ".now" : ""}`, placeWord(place)),
      ),
    );

  const bank = (division, places, before, after) => {
    const [was, is] = [division.bank(before), division.bank(after)];
    const slots = places.map((place) => {
      const [, ...moved] = change(was[place], is[place]);
      return element("div.slot", tally(is[place]), laid(place, "ten.small", moved));
    });
    return element("div.bank", element("strong", say("figure.bank")), ...slots);
  };

  /** What the bank has gained or given so far, with its sign. */
  const tally = (count) => element("span.tally", count ? signed(count) : "");

  const middle = (division, places, before, after, isAtTheEnd) => {
    const most = mostInTheMiddle(division);
    const slots = places.map((place) => {
      const looks = change(before === after ? 0 : before.middle[place], after.middle[place]);
      const blank = most[place] - sum(looks.map(([, count]) => count));
      return element(
        "div.slot",
        element("span.tally", String(after.middle[place] || "")),
        laid(place, lattice(place, most), [...looks, ["blank", blank]]),
      );
    });
    const name = say(isAtTheEnd && division.remainder ? "figure.left-over" : "figure.middle");
    return element("div.middle", element("strong", name), ...slots);
  };

  const trays = (division, places, before, after) => {
    const was = trayByTray(division, before);
    // A round that is begun may lay one piece more for a while: five of them fill a row.
    const atTheEnd = division.trays(division.end);
    const areFew = atTheEnd.every(({ holds }) => holds.every((count, place) => place < HUNDREDS || count < 5));
    return trayByTray(division, after).map(({ stands_for, holds }, index, all) => {
      const slots = places.map((place) => {
        const how = areFew ? (place < HUNDREDS ? "ten" : "five") : "ten.small";
        return element(
          "div.slot",
          element("span.tally.printed-only", String(holds[place] || "")),
          laid(place, how, change(was[index].holds[place], holds[place])),
        );
      });
      const row = all[index - 1]?.stands_for === stands_for ? "div.tray.another" : "div.tray";
      return element(row, trayName(division, index + 1, stands_for), ...slots);
    });
  };

  const trayName = ({ ribbons }, number, stands_for) => {
    if (!ribbons) {
      const inFull = element("span.in-full", say("figure.tray", { number }));
      return element("strong", inFull, element("span.in-short", String(number)));
    }
    const bow = stands_for in BOWS ? [element(`i.bow.${BOWS[stands_for]}`)] : [];
    const name = element("span.in-full", say(`figure.for-${stands_for}`));
    return element("strong", ...bow, name, element("span.in-short", String(stands_for)));
  };

  /**
   * How pieces lie in the middle: in fives, tens or twenties, so that ten fill a column however many there will be.
   * Where squares lie in tens, all kinds are half as large.
   */
  const lattice = (place, most) => {
    if (place === TENS && most[TENS] > 20) return most[TENS] > 60 ? "twenty.short" : "twenty";
    if (most[HUNDREDS] > 20) return "ten.small";
    return place < HUNDREDS ? "ten" : "five";
  };

  const laid = (place, how, looks) =>
    element(
      `div.laid.${how}`,
      ...looks.flatMap(([look, count]) => Array.from({ length: count }, () => element(`i.${SHAPES[place]}.${look}`))),
    );

  sharing.mat = { drawnMat, matSetOut };
}
