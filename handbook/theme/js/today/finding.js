// Find me a number: the numbers of a kind for a group, best first, with what each needs.
"use strict";
{
  const { quotientOf } = sharing.places;
  const { workOut } = sharing.division;
  const { numbers, bestFirst, zerosAsWanted, NUMBER_KINDS } = sharing.numbers;
  const { lessonLength, reckonedLength } = sharing.length;
  const { divisionName, wayOfSharing } = sharing.titles;
  const { pieces } = sharing.numberWords;
  const { write } = sharing.address;
  const { element, byId, say } = sharing.elements;

  const SHOWN = 8;
  const ANY = { exchangeFrom: null, remainder: "any", zeros: "any", digits: 4, shelf: null };

  /**
   * kind: one of NUMBER_KINDS or "any"; cubes: the most there may be in the number; minutes: the longest lesson
   * @typedef {{kind: string, digits: number, remainder: string, zeros: string, cubes: number, minutes: number}} Wanted
   */

  /** @type {(children: number, wanted: Wanted, shelf: Shelf | null) => number[]} every one, smallest first of each choice */
  const find = (children, { kind, digits, remainder, zeros, cubes, minutes }, shelf) => {
    const { time, look_first } = sharing.handbook;
    const choices = kind === "any" ? [ANY] : NUMBER_KINDS[kind];
    const found = choices.flatMap((choice) => numbers(children, { ...choice, digits, shelf }));
    return found.filter(
      (number) =>
        (remainder === "any" || number % children > 0 === (remainder === "some")) &&
        zerosAsWanted(zeros, String(number), String(quotientOf(number, children))) &&
        number < (cubes + 1) * 1_000 &&
        reckonedLength(number, children, time, look_first).lesson <= minutes,
    );
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
        minutes: Number(byId("find-minutes").value),
      };
      const found = find(children, wanted, byId("find-shelf").checked ? shelf() : null);
      byId("found-state").textContent = say(found.length ? "today.found" : "today.none-found", {
        count: found.length,
        children,
      });
      const best = bestFirst(children, found, SHOWN);
      byId("found").replaceChildren(...best.map((number) => foundLine(number, children)));
    };
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", search);
    return search;
  };

  const foundLine = (number, children) => {
    const { time, look_first } = sharing.handbook;
    const division = workOut(number, children, { lookFirst: look_first });
    return element(
      "li",
      {},
      element("a", { href: write({ number, children, ribbons: false }) }, divisionName(division)),
      " ",
      say("today.found-number", {
        way: wayOfSharing(division),
        pieces: pieces(division.piecesNeeded),
        minutes: lessonLength(division, time).lesson,
      }),
    );
  };

  sharing.finding = { watch };
}
