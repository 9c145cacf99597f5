// A question about numbers is answered first by the lesson for just that division, if the handbook has one, and then by
// the page for today's number with it filled in, if the handbook has that page.

/**
 * @param {Division} asked
 * @returns {string} the page for today's number with the division filled in
 */
function addressOf({ dividend, divisor, ribbons }) {
  const filledIn = [dividend && `number=${dividend}`, divisor && `children=${divisor}`, ribbons && "ribbons"];
  return `${handbook.today}#${filledIn.filter(Boolean).join("&")}`;
}

/**
 * @param {Division} asked
 * @returns {string}
 */
function titleOf({ dividend, divisor, ribbons }) {
  const named = dividend === undefined ? "group" : divisor === undefined ? "number" : "division";
  return sharing.phrases.say(handbook.words, `search.${named}${ribbons ? "-with-ribbons" : ""}`, { dividend, divisor });
}

/**
 * @param {string} asked
 * @param {object[][]} items what the theme has found: of each page its parts, the one that suits best first
 * @returns {object[][]} the same, with what answers a question about numbers before them
 */
function withNumbersFirst(asked, items) {
  const division = divisionAsked(asked);
  if (!division) return items;
  const lesson = handbook.lessons.find((one) => ["dividend", "divisor", "ribbons"].every((key) => one[key] === division[key]));
  const isLesson = ([{ location }]) => lesson && location.split("#")[0] === lesson.page;
  const best = Math.max(0, ...items.map(([{ score }]) => score));
  const first = items.filter(isLesson);
  const today = { location: addressOf(division), title: titleOf(division), text: "", terms: {}, score: best + 1 };
  for (const parts of first) parts[0].score = best + 2; // Enter opens what has the highest score
  return [...first, ...(handbook.today ? [[today]] : []), ...items.filter((item) => !isLesson(item))];
}
