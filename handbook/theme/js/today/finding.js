// Find me a number: the numbers of a kind for a group, best first, with what each needs.
"use strict";
((sharing) => {
  const { placeName, placesHeld } = sharing.places;
  const { workOut } = sharing.division;
  const { numbers, bestFirst, NUMBER_KINDS } = sharing.numbers;
  const { divisionName, wayOfSharing } = sharing.titles;
  const { listing } = sharing.numberWords;
  const { write } = sharing.address;
  const { element, byId, say } = sharing.elements;

  const SHOWN = 8;
  const ANY = { exchangeFrom: null, remainder: "any", zeros: "any", digits: 4, shelf: null };

  /**
   * kind: one of NUMBER_KINDS or "any"; cubes: the most there may be in the number
   * @typedef {{kind: string, digits: number, remainder: string, zeros: string, cubes: number}} Wanted
   */

  /** @type {(children: number, wanted: Wanted, shelf: Shelf | null) => number[]} best first */
  const find = (children, { kind, digits, remainder, zeros, cubes }, shelf) => {
    const choices = kind === "any" ? [ANY] : NUMBER_KINDS[kind];
    const found = choices.flatMap((choice) => numbers(children, { ...choice, digits, shelf }));
    const fits = (number) =>
      (remainder === "any" || number % children > 0 === (remainder === "some")) &&
      hasZeros(zeros, number, children) &&
      number < (cubes + 1) * 1_000;
    return bestFirst(children, found.filter(fits));
  };

  const hasZeros = (zeros, number, children) => {
    const share = String(Math.trunc(number / children));
    if (zeros === "none") return !`${number}${share}`.includes("0");
    return zeros === "any" || (zeros === "dividend" ? String(number) : share).includes("0");
  };

  /** @type {(group: () => number, shelf: () => Shelf) => () => void} what searches again when group or shelf change */
  const watch = (group, shelf) => {
    const form = byId("find-form");
    const search = () => {
      const children = group();
      const wanted = {
        kind: byId("find-kind").value,
        digits: Number(byId("find-digits").value),
        remainder: byId("find-remainder").value,
        zeros: byId("find-zeros").value,
        cubes: Number(byId("find-cubes").value),
      };
      const found = find(children, wanted, byId("find-shelf").checked ? shelf() : null);
      byId("found-state").textContent = say(found.length ? "today.found" : "today.none-found", {
        count: found.length,
        children,
      });
      byId("found").replaceChildren(...found.slice(0, SHOWN).map((number) => foundLine(number, children)));
    };
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", search);
    return search;
  };

  const foundLine = (number, children) => {
    const { words } = sharing.handbook;
    const division = workOut(number, children);
    const needed = division.piecesNeeded;
    const pieces = placesHeld(needed).map((place) => say(`piece.${placeName(place)}`, { count: needed[place] }));
    return element(
      "li",
      {},
      element("a", { href: write({ number, children, ribbons: false }) }, divisionName(words, division)),
      " ",
      say("today.found-number", { way: wayOfSharing(words, division), pieces: listing(words, pieces) }),
    );
  };

  sharing.finding = { find, watch };
})((globalThis.sharing ??= {}));
