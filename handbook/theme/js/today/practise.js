// Practising: the next movement is hidden until the learner has said which it is.
"use strict";
{
  const { UNITS } = sharing.places;
  const { pieces, placeWord } = sharing.numberWords;
  const { served } = sharing.handWords;
  const { byId, say, on } = sharing.elements;

  /** What is asked about: a movement, its division, the state before it, how many of its questions are answered. */
  let now = null;

  /** @type {() => boolean} */
  const isOn = () => byId("practise").checked;

  /**
   * Ask which movement comes next. There is nothing to ask after the last.
   * @type {(division: Division, before: State, movement: Movement | undefined) => void}
   */
  const ask = (division, before, movement) => {
    now = movement?.asks.length ? { division, before, movement, answered: 0 } : null;
    const question = byId("practise-question");
    const hadFocus = question.contains(document.activeElement);
    question.hidden = !isOn() || !now;
    if (hadFocus && question.hidden) byId("movement-by-movement").focus({ preventScroll: true });
  };

  /** @type {() => boolean} whether the next movement is hidden for the moment */
  const hides = () => isOn() && now !== null;

  const tell = (text) => (byId("practise-told").textContent = text);

  /** Take away what was said about an answer. */
  const forget = () => tell("");

  const answer = (given, goOn) => {
    const { movement } = now;
    const [right, then] = movement.asks.slice(now.answered);
    // Before a round that cannot be finished both answers are right: to see that, and to begin the round.
    const begins = given === "round" && movement.step.action === "start-round";
    const isRight = (asked) => given === asked || (begins && asked === "not-enough");
    // Who says at once what happens at the next place has gone on to it.
    const goesOn = right === "next-place" && isRight(then);
    if (!goesOn && !isRight(right)) {
      tell(say(`practise.wrong.${reason(right, given)}`, lying()));
      return;
    }
    now.answered += goesOn ? 2 : 1;
    const { level } = movement.step.after;
    if (now.answered < movement.asks.length) {
      tell(say(`practise.and-then.${given}`, { place: placeWord(level) }));
      return;
    }
    tell(say("practise.right")); // the movement itself is told where it is shown
    goOn();
  };

  /** Why it is the right answer. With ribbons a piece can be changed so that a round can be given out. */
  const reason = (right, given) => {
    const { movement, division } = now;
    const { steps } = division.stages[movement.stage];
    const isForARound = steps.slice(steps.indexOf(movement.step)).some(({ action }) => action === "deal-round");
    const { action, place } = movement.step;
    if (action === "start-round" && place > UNITS && given === "bank") return "begin-a-round";
    if (right === "next-place" && division.ribbons) return "next-place-with-ribbons";
    return right === "bank" && isForARound ? "bank-for-a-round" : right;
  };

  /** What lies in the middle, and what a round takes; which pieces are given out no more, and what each gets then. */
  const lying = () => {
    const { division, before, movement } = now;
    const round = before.middle.map((_, place) => division.mat[place - movement.step.after.level] ?? 0);
    const lies = { pieces: pieces(before.middle), round: pieces(round), place: placeWord(before.level) };
    const given = placeWord(before.level + division.mat.length - 1);
    return { ...lies, lies: say("practise.lies", lies), given, each: served(movement.step.after.level, division) };
  };

  /** @type {(changed: () => void, goOn: () => void) => void} */
  const watch = (changed, goOn) => {
    on(byId("practise"), "change", () => {
      forget();
      changed();
    });
    for (const button of byId("practise-question").querySelectorAll("button")) {
      on(button, "click", () => answer(button.dataset.answer, goOn));
    }
  };

  sharing.practise = { ask, hides, forget, watch };
}
