// The answer to a number and a group: the share, what is special, whether the shelf has it, and numbers near to it.
"use strict";
((sharing) => {
  const { placeName, downFrom, placesHeld } = sharing.places;
  const { needs, shortages } = sharing.shelf;
  const { lessonLength } = sharing.length;
  const { divisionName, lessonTitle, wayOfSharing } = sharing.titles;
  const { nearestOf } = sharing.nearest;
  const { write } = sharing.address;
  const { element, byId, say } = sharing.elements;

  /** @type {(asked: Asked, division: Division, shelf: Shelf) => void} */
  const show = (asked, division, shelf) => {
    const { words, lessons } = sharing.handbook;
    const { dividend, divisor, ribbons } = division;
    byId("answer-name").textContent = divisionName(words, division);
    byId("answer-each").replaceChildren(...eachHas(division));
    byId("answer-way").textContent = say("today.way", { way: wayOfSharing(words, division) });
    byId("answer-length").textContent = say("glance.minutes", lessonLength(division, sharing.handbook.time));
    const own = lessons.find((one) => one.dividend === dividend && one.divisor === divisor && one.ribbons === ribbons);
    byId("answer-lesson").replaceChildren(
      ...(own ? [say("today.lesson"), " ", element("a", { href: own.page }, lessonTitle(words, division))] : []),
    );
    showShelf(division, shelf);
    byId("nearest").replaceChildren(...nearestOf(asked).map(nearLine));
  };

  /** The sentence of the share, its numbers written large. */
  const eachHas = ({ quotient, remainder, ribbons }) => {
    const [key, exactly] = ribbons
      ? ["today.each-for-one", "today.each-for-one-exactly"]
      : ["today.each", "today.each-exactly"];
    const numbers = { quotient: "\u0001", remainder: "\u0002", count: remainder };
    const written = { "\u0001": quotient, "\u0002": remainder };
    return say(remainder ? key : exactly, numbers)
      .split(/(\u0001|\u0002)/)
      .map((part) => (part in written ? element("strong", {}, sharing.phrases.written(words().grouping, written[part])) : part));
  };

  const words = () => sharing.handbook.words;

  const showShelf = (division, shelf) => {
    const needed = needs(division);
    const short = shortages(needed, shelf);
    const verdict = byId("shelf-verdict");
    verdict.className = short.length ? "verdict short" : "verdict";
    verdict.textContent = short.length
      ? say("today.short", { things: short.map(shortageWords).join(say("list.semicolon")) })
      : say("today.enough");
    const wanted = [
      ...downFrom(needed.pieces.length).map((place) => [placeName(place), needed.pieces[place]]),
      ["trays", needed.trays],
      ...placesHeld(needed.ribbons).map((width) => [`${placeName(width).slice(0, -1)}_ribbons`, needed.ribbons[width]]),
    ];
    byId("shelf-needs").replaceChildren(...wanted.filter(([, count]) => count).map((want) => needLine(want, shelf)));
  };

  const shortageWords = ({ what, needed, owned }) =>
    say(what.endsWith("_cards_to") ? "shortage.cards" : "shortage.pieces", {
      thing: say(`shortage.thing.${what}`),
      needed,
      owned,
    });

  const needLine = ([what, needed], shelf) => {
    const owned = shelf[what] ?? 0;
    const meter = element("meter", { min: 0, max: Math.max(owned, needed, 1), value: needed, high: owned, optimum: 0 });
    meter.setAttribute("aria-hidden", "true");
    const name = element("span", {}, say(`today.on-shelf.${what}`));
    const count = element("span", {}, say("today.needed-of-owned", { needed, owned }));
    return element(needed > owned ? "li.short" : "li", {}, name, count, meter);
  };

  const nearLine = ({ kind, number, children, ribbons }) => {
    const link = element("a", { href: write({ number, children, ribbons }) }, String(number));
    link.textContent = sharing.phrases.written(words().grouping, number);
    return element("li", {}, link, " ", say(`today.near.${kind}`, { count: children }));
  };

  sharing.answer = { show };
})((globalThis.sharing ??= {}));
