// The answer to a number and a group: the share, what is special, whether the shelf has it, and numbers near to it.
"use strict";
{
  const { UNITS } = sharing.places;
  const { needs, wanted, shortages, withSubstitutes } = sharing.shelf;
  const { lessonLength } = sharing.length;
  const { divisionName, lessonOf, lessonTitle, wayOfSharing } = sharing.titles;
  const { shortage, substitutes } = sharing.materialWords;
  const { capital, inARow, inClauses } = sharing.numberWords;
  const { SMALLEST, nearestOf } = sharing.nearest;
  const { write } = sharing.address;
  const { element, byId, setText, say, number } = sharing.elements;

  const CARDS = ["large_cards_to", "small_cards_to", "small_sets"];

  /** @type {(asked: Asked, division: Division, shelf: Shelf) => void} */
  const show = (asked, division, shelf) => {
    const { time } = sharing.handbook;
    setText("answer-name", divisionName(division));
    byId("answer-each").replaceChildren(...eachHas(division));
    const { dividend } = division;
    const way = say("today.way", { way: wayOfSharing(division) });
    setText("answer-way", dividend < SMALLEST ? say("today.next-to-nothing") : way);
    setText("answer-length", say("plan.minutes", lessonLength(division, time)));
    const own = lessonOf(division);
    byId("answer-lesson").replaceChildren(
      ...(own ? [say("today.lesson"), " ", element("a", { href: own.page }, lessonTitle(division))] : []),
    );
    for (const link of document.querySelectorAll("[data-leads-to]")) {
      link.href = `${write(asked)}&${link.dataset.leadsTo}`;
    }
    showShelf(asked, division, shelf);
  };

  /** The sentence of the share, its numbers written large. */
  const eachHas = ({ quotient, remainder, ribbons, mat }) => {
    const withRibbons = mat[UNITS] ? "glance.share-with-ribbons" : "glance.share-nobody-for-one";
    const share = capital(say(ribbons ? withRibbons : "glance.share", { quotient }));
    const key = remainder ? "glance.comes-to" : "glance.comes-to-exactly";
    const comesTo = say(key, { share, remainder, count: remainder });
    return say("today.comes-to", { comes_to: comesTo })
      .split(/(\d(?:.?\d)*)/)
      .map((part, index) => (index % 2 ? element("strong", part) : part));
  };

  /**
   * Whether the shelf has what is needed, what it takes, what else it has.
   * @type {(asked: Asked, division: Division, shelf: Shelf) => void}
   */
  const showShelf = (asked, division, shelf) => {
    const needed = needs(division);
    const short = shortages(needed, shelf);
    const isShort = short.length > 0;
    const notEnough = isShort ? say("today.short", { things: inClauses(short.map(shortage)) }) : "";
    setText("answer-short", notEnough);
    byId("shelf-verdict").classList.toggle("short", isShort);
    setText("shelf-verdict", isShort ? `${notEnough} ${substitutes(needed, shelf)}` : say("today.enough"));
    const things = wanted(needed).filter(([what, count]) => count && !CARDS.includes(what));
    byId("shelf-needs").replaceChildren(...things.map((thing) => needLine(thing, shelf)));
    const ofOurs = nearestOf(asked, shelf);
    const near = ofOurs.length ? ofOurs : nearestOf(asked, withSubstitutes(shelf));
    byId("near-with-substitutes").hidden = near === ofOurs;
    byId("nearest").replaceChildren(...near.map(nearLine));
    byId("near").hidden = !near.length;
  };

  const needLine = ([what, needed], shelf) => {
    const owned = shelf[what] ?? 0;
    const meter = element("meter", {
      "aria-hidden": true,
      min: 0,
      max: Math.max(owned, needed),
      value: needed,
      high: owned,
      optimum: 0,
    });
    const name = element("span", say(`today.on-shelf.${what}`));
    const count = element("span", say("today.needed-of-owned", { needed, owned }));
    return element(needed > owned ? "li.short" : "li", name, count, meter);
  };

  const nearLine = (near) => {
    const does = near.kinds.map((kind) => say(`today.near.${kind}`, { count: near.children }));
    return element("li", element("a", { href: write(near) }, number(near.number)), " ", inARow(does));
  };

  sharing.answer = { show, showShelf };
}
