// The course of a division, movement by movement: what is said with each, and which questions lead to it.
"use strict";
{
  const { saidAt } = sharing.spoken;

  /** The right answer before each movement, when practising. Other movements are shown without a question. */
  const ANSWERS = {
    "deal-round": "round",
    "start-round": "not-enough",
    "take-back": "take-back",
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
      const { movements, roundsEnd } = stage;
      const said = saidAt(division, stage);
      const looks = division.lookFirst && stage.unfinished;
      return movements.map((step, each) => ({
        step,
        stage: index,
        said: said.filter(({ made }) => Math.min(made, movements.length - 1) === each),
        asks: [
          ...(index && !each ? ["next-place"] : []),
          ...(looks && each === roundsEnd ? ["not-enough"] : []),
          ...(step.action in ANSWERS ? [ANSWERS[step.action]] : []),
        ],
      }));
    });

  sharing.course = { courseOf };
}
