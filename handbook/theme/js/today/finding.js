// Find me a number: the numbers of a kind for a group, best first, with what each needs.
"use strict";
{
  const { quotientOf } = sharing.places;
  const { workOut } = sharing.division;
  const { numbers, bestFirst, zerosAsWanted, NUMBER_KINDS } = sharing.choosingNumbers;
  const { withSubstitutes } = sharing.shelf;
  const { lessonLength, reckonedLength } = sharing.length;
  const { divisionName, wayOfSharing } = sharing.titles;
  const { pieces, smallNumber } = sharing.numberWords;
  const { write } = sharing.address;
  const { element, byId, setText, say, on } = sharing.elements;

  const { time, look_first } = sharing.handbook;

  const SHOWN = 8;
  const ANY = { remainder: "any", zeros: "any" };

  /**
   * What the form says. kind: one of NUMBER_KINDS or "any"; cubes: the most there may be in the number; minutes: the
   * longest lesson.
   * @typedef {{kind: string, digits: string, remainder: string, zeros: string, cubes: string, minutes: string}} Wanted
   */

  /**
   * Every one, smallest first of each choice. Numbers of a kind have no zero but in its name; where there are none,
   * those with a zero will do: 110 for eleven.
   * @type {(children: number, wanted: Wanted, shelf: Shelf | null) => number[]}
   */
  const find = (children, { kind, digits, remainder, zeros, cubes, minutes }, shelf) => {
    const choices = kind === "any" ? [ANY] : NUMBER_KINDS[kind];
    const fits = (number) =>
      (remainder === "any" || number % children > 0 === (remainder === "some")) &&
      zerosAsWanted(zeros, String(number), String(quotientOf(number, children))) &&
      quotientOf(number, 1_000) <= Number(cubes) &&
      reckonedLength(number, children, time, look_first).lesson <= Number(minutes);
    const found = (withZeros) =>
      choices
        .flatMap((choice) => numbers(children, { ...choice, ...withZeros, digits: Number(digits), shelf }))
        .filter(fits);
    const ofKind = found({});
    return ofKind.length || choices[0].zeros !== "none" ? ofKind : found({ zeros: "any" });
  };

  /**
   * What searches again when group or shelf change.
   * @type {(group: () => number | null, shelf: () => Shelf) => () => void}
   */
  const watch = (group, shelf) => {
    const form = byId("find-form");
    let listed = "";
    const search = () => {
      const children = group();
      const { checked: ribbons } = byId("ask-ribbons");
      const kind = say("group.kind.static");
      if (!children) {
        tell(say("today.group-first"));
        byId("found").replaceChildren();
        listed = "";
        return;
      }
      const wanted = Object.fromEntries(new FormData(form));
      const limit = byId("find-shelf").checked ? shelf() : null;
      const ofOurs = find(children, wanted, limit);
      const somebodyGetsSome = ofOurs.some((number) => number >= children);
      const found = somebodyGetsSome || !limit ? ofOurs : find(children, wanted, withSubstitutes(limit));
      tell([
        say(found.length ? "today.found" : "today.none-found", { count: found.length, children }),
        ...(found.length ? [] : shorter(children, wanted, limit)),
        ...(found.length > SHOWN ? [say("today.listed", { shown: SHOWN })] : []),
        ...(found.length && wanted.kind === "any" ? [say("today.never-exchanged", { kind })] : []),
        ...(found.length && found !== ofOurs ? [say("today.substitutes")] : []),
        ...(ribbons ? [say("today.without-ribbons")] : []),
      ].join(" "));
      const best = bestFirst(children, found, SHOWN);
      const toList = `${children}: ${best}`;
      if (toList === listed) return; // a field that is left when a number is clicked on must not take it away
      listed = toList;
      byId("found").replaceChildren(...best.map((number) => foundLine(number, children)));
    };
    on(form, "input", search);
    return search;
  };

  /** That there are numbers with fewer digits, where there are: as many digits as can be. */
  const shorter = (children, wanted, shelf) => {
    for (let digits = wanted.digits - 1; digits > 1; digits -= 1) {
      const count = find(children, { ...wanted, digits }, shelf).length;
      if (count) return [say("today.fewer-digits", { count, digits: smallNumber(digits) })];
    }
    return [];
  };

  const tell = (text) => setText("found-state", text);

  const foundLine = (number, children) => {
    const division = workOut(number, children, { lookFirst: look_first });
    return element(
      "li",
      element("a", { href: write({ number, children, ribbons: false }) }, divisionName(division)),
      " ",
      say("today.found-number", {
        way: wayOfSharing(division),
        exchanges: division.exchanges,
        pieces: pieces(division.piecesNeeded),
        minutes: lessonLength(division, time).lesson,
      }),
    );
  };

  sharing.finding = { watch };
}
