// A question about numbers is answered first by the lesson for just that division, if the handbook has one; then by the
// page for today's number with it filled in; then by other lessons of that number.

const TODAY = "today.html";

/**
 * @param {Division} asked
 * @returns {string} the page for today's number with the division filled in
 */
function addressOf({ dividend, divisor, ribbons }) {
  const filledIn = [dividend && `number=${dividend}`, divisor && `children=${divisor}`, ribbons && "ribbons"];
  return `${TODAY}#${filledIn.filter(Boolean).join("&")}`;
}

/**
 * @param {Division} asked
 * @returns {string}
 */
function titleOf({ dividend, divisor, ribbons }) {
  const named = dividend === undefined ? "group" : divisor === undefined ? "number" : "division";
  return sharing.phrases.say(`search.${named}${ribbons ? "-with-ribbons" : ""}`, { dividend, divisor });
}

/**
 * @param {string} asked
 * @param {object[][]} items what the theme has found: of each page its parts, the one that suits best first
 * @returns {object[][]} the same, with what answers a question about numbers before them
 */
function withNumbersFirst(asked, items) {
  const division = divisionAsked(asked);
  if (!division) return items;
  const { dividend, divisor, ribbons } = division;
  const ofNumber = sharing.handbook.lessons.filter((lesson) => lesson.dividend === dividend);
  const ofDivision = ofNumber.filter((lesson) => lesson.divisor === divisor && Boolean(lesson.ribbons) === ribbons);
  const isOneOf = (lessons, [{ location }]) => lessons.some(({ page }) => page === location.split("#")[0]);

  // Enter opens what has the highest score.
  const best = Math.max(0, ...items.map(([{ score }]) => score));
  const first = items.filter((item) => isOneOf(ofDivision, item));
  for (const [part] of first) Object.assign(part, { score: best + 2, terms: {} }); // it has what was asked for
  const today = { location: addressOf(division), title: titleOf(division), text: "", terms: {}, score: best + 1 };
  const others = items.filter((item) => !first.includes(item));
  const numbersForGroup = { page: `choosing/group-${divisor}.html` };
  const close = dividend === undefined ? [numbersForGroup] : ofNumber;
  const near = others.filter((item) => isOneOf(close, item));
  const apart = others.filter((item) => !near.includes(item));
  return [...first, [today], ...near, ...apart];
}
