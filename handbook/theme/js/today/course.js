// The course of a division, movement by movement: what is said with each, and which questions lead to it.
"use strict";
{
  const { UNITS } = sharing.places;
  const { exchangesByTime } = sharing.atPlace;
  const { saidAt } = sharing.spoken;

  /** What comes next, as one who practises is asked; a movement that is not here is seen without a question. */
  const ANSWERS = {
    "deal-round": "round",
    "start-round": "not-enough",
    "take-back": "not-enough",
    exchange: "bank",
    "set-aside": "left-over",
  };

  /**
   * One movement as the table of every movement numbers it. stage: the place at which it happens, counted from the
   * first; said: what is said with it; asks: what is to be known before it, in order.
   * @typedef {{step: Step, stage: number, said: Said[], asks: string[]}} Movement
   */

  /** @type {(division: Division) => Movement[]} */
  const courseOf = (division) =>
    division.stages.flatMap((stage, index) => {
      const steps = stage.steps.filter(({ action }) => action !== "next-place");
      const afterRounds = steps.map(({ action }) => action).lastIndexOf("deal-round") + 1;
      const said = saidWith(saidAt(division, stage), stage, steps, afterRounds);
      const looks = division.lookFirst && stage.unfinished;
      return steps.map((step, each) => ({
        step,
        stage: index,
        said: said[each],
        asks: [
          ...(index && !each ? ["next-place"] : []),
          ...(looks && each === afterRounds ? ["not-enough"] : []),
          ...(step.action in ANSWERS ? [ANSWERS[step.action]] : []),
        ],
      }));
    });

  /** What is said at a place, movement by movement: its lines come in the order in which `saidAt` tells them. */
  const saidWith = (lines, stage, steps, afterRounds) => {
    const { forARound, later } = exchangesByTime(stage);
    const said = steps.map(() => []);
    const rest = [...lines];
    const say = (index, many = 1) => said[index].push(...rest.splice(0, many));
    say(0);
    for (const place of forARound) say(steps.findIndex((step) => step.action === "exchange" && step.place === place), 2);
    if (stage.unfinished) say(Math.max(steps.findIndex(({ action }) => action === "take-back"), afterRounds));
    if (later.length) {
      const trip = steps.findIndex(({ action }, index) => action === "exchange" && index >= afterRounds);
      say(trip, forARound.includes(later[0]) ? 1 : 2);
    }
    if (stage.level === UNITS) say(steps.length - 1);
    return said;
  };

  sharing.course = { courseOf };
}
