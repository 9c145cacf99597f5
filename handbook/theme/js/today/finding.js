// Find me a number: the numbers of a kind for a group, best first, and what each comes to.
"use strict";
{
  const { quotientOf } = sharing.places;
  const { workOut } = sharing.division;
  const { numbers, bestFirst, zerosAsWanted, NUMBER_KINDS } = sharing.choosingNumbers;
  const { withSubstitutes } = sharing.shelf;
  const { lessonLength, reckonedLength } = sharing.length;
  const { listing, smallNumber } = sharing.numberWords;
  const { write } = sharing.address;
  const { table } = sharing.lessonParts;
  const { element, byId, setText, say, number: written, on } = sharing.elements;

  const { time, look_first } = sharing.handbook;

  const SHOWN = 8;
  const FEW = 3;
  const HEADS = ["number", "each", "left-over", "exchanges", "minutes"];
  const ANY = { remainder: "any", zeros: "any" };

  /**
   * What the form says. kind: one of NUMBER_KINDS or "any"; cubes: the most there may be in the number; minutes: the
   * longest lesson.
   * @typedef {{kind: string, digits: string, remainder: string, zeros: string, cubes: string, minutes: string}} Wanted
   */

  /**
   * Every one, smallest first of each choice. Numbers of a kind have no zero but in its name; where there are none,
   * those with a zero will do: 110 for eleven. Of a kind nothing is left over, unless something is asked for.
   * @type {(children: number, wanted: Wanted, shelf: Shelf | null) => number[]}
   */
  const find = (children, { kind, digits, remainder, zeros, cubes, minutes }, shelf) => {
    const choices = kind === "any" ? [ANY] : NUMBER_KINDS[kind];
    const asked = remainder === "some" ? { remainder } : {};
    const fits = (number) =>
      (remainder === "any" || number % children > 0 === (remainder === "some")) &&
      zerosAsWanted(zeros, String(number), String(quotientOf(number, children))) &&
      quotientOf(number, 1_000) <= Number(cubes) &&
      reckonedLength(number, children, time, look_first).lesson <= Number(minutes);
    const found = (withZeros) =>
      choices
        .flatMap((choice) => numbers(children, { ...choice, ...asked, ...withZeros, digits: Number(digits), shelf }))
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
      const kind = say("group.kind.static");
      if (!children) {
        tell(say(byId("ask-ribbons").checked ? "today.without-ribbons" : "today.group-first"));
        byId("found").replaceChildren();
        listed = "";
        return;
      }
      const wanted = Object.fromEntries(new FormData(form));
      const limit = byId("find-shelf").checked ? shelf() : null;
      const ofOurs = find(children, wanted, limit);
      const hasSimpler = () => wanted.kind === "any" && find(children, { ...wanted, kind: "static" }, limit).length;
      const somebodyGetsSome = ofOurs.some((number) => number >= children);
      const found = somebodyGetsSome || !limit ? ofOurs : find(children, wanted, withSubstitutes(limit));
      tell([
        say(found.length ? "today.found" : "today.none-found", { count: found.length, children }),
        ...(found.length ? [] : wayOut(children, wanted, limit)),
        ...(found.length < FEW ? shorter(children, wanted, limit) : []),
        ...(found.length > SHOWN ? [say("today.listed", { shown: SHOWN })] : []),
        ...(hasSimpler() ? [say("today.never-exchanged", { kind })] : []),
        ...(found.length && found !== ofOurs ? [say("today.substitutes")] : []),
      ].join(" "));
      const best = bestFirst(children, found, SHOWN);
      const toList = `${children}: ${best}`;
      if (toList === listed) return; // a field that is left when a number is clicked on must not take it away
      listed = toList;
      byId("found").replaceChildren(...(best.length ? [list(best, children)] : []));
    };
    on(form, "input", search);
    return search;
  };

  /** Why there are no such numbers, or which fields could be changed, each on its own, so that there are some. */
  const wayOut = (children, wanted, shelf) => {
    if (wanted.kind === "static" && children > 9) return [say("today.never-as-it-lies")];
    const isTooNarrow = ({ name, options: [widest] }) =>
      find(children, { ...wanted, [name]: widest.value }, shelf).length;
    const fields = [...byId("find-form").querySelectorAll("select")].filter(isTooNarrow);
    if (shelf && find(children, wanted, null).length) fields.push(byId("find-shelf"));
    const names = fields.map(({ labels: [label] }) => `“${label.textContent.trim()}”`);
    return names.length ? [say("today.change-a-field", { fields: listing(names, "list.or") })] : [];
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

  const list = (found, children) => {
    const head = element("tr", ...HEADS.map((name) => element("th", { scope: "col" }, say(`today.head.${name}`))));
    const body = element("tbody", ...found.map((number) => row(number, children)));
    const caption = say("today.found-for", { children });
    return table("found-numbers", ".ledger.numbers", caption, element("thead", head), body);
  };

  const row = (number, children) => {
    const division = workOut(number, children, { lookFirst: look_first });
    const told = [division.quotient, division.remainder, division.exchanges, lessonLength(division, time).lesson];
    const name = element("a", { href: write({ number, children, ribbons: false }) }, written(number));
    const cells = told.map((count) => element("td", written(count)));
    return element("tr", element("th", { scope: "row" }, name), ...cells);
  };

  sharing.finding = { watch };
}
