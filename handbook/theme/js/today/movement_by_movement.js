// A division movement by movement: the mat as it then stands, what the hands have done, and where everything lies.
"use strict";
{
  const { readMovement, note } = sharing.address;
  const { pieces, capital } = sharing.numberWords;
  const { hands } = sharing.handWords;
  const { traysWords } = sharing.stageWords;
  const { says } = sharing.lessonParts;
  const { courseOf } = sharing.course;
  const { drawnMat } = sharing.mat;
  const { practise } = sharing;
  const { element, byId, setText, say, on } = sharing.elements;

  const buttons = document.querySelectorAll("#movement-buttons button");

  /** The division that is shown, its movements, and after how many of them the mat stands as it is shown. */
  let shown = { asked: null, division: null, movements: [], position: 0 };

  /** @type {(asked: Asked, division: Division) => void} show a division as far as its address says */
  const show = (asked, division) => {
    const movements = courseOf(division);
    shown = { asked, division, movements, position: Math.min(readMovement() ?? 0, movements.length) };
    practise.forget();
    draw();
  };

  /** @type {() => number | undefined} the level of the place at which the movement that is shown happens */
  const level = () => shown.division.stages[shown.movements[shown.position - 1]?.stage]?.level;

  const stateAt = (position) => (position ? shown.movements[position - 1].step.after : shown.division.beginning);

  const draw = () => {
    const { division, movements, position } = shown;
    const [before, after] = [stateAt(Math.max(position - 1, 0)), stateAt(position)];
    const isAtTheEnd = position === movements.length;
    const movement = movements[position - 1];
    setText(
      "movement-now",
      movement
        ? say("movements.now", { position, last: movements.length, hands: hands(movement.step, division) })
        : say("movements.set-out", { pieces: pieces(division.start) }),
    );
    const said = movement?.said ?? [];
    byId("movement-said").replaceChildren(...said.map(({ who, text }) => says(who, [text])));
    byId("movement-mat").replaceChildren(drawnMat(division, before, after, isAtTheEnd));
    byId("movement-room").replaceChildren(...room(after, isAtTheEnd).map((line) => element("li", line)));
    practise.ask(division, after, movements[position]);
    for (const button of buttons) {
      const { go } = button.dataset;
      button.setAttribute("aria-disabled", String(target(go) === position || isHidden(go)));
    }
  };

  /** Whether a way leads to movements that one who practises has not said yet. */
  const isHidden = (way) => practise.hides() && target(way) > shown.position;

  /** Where everything lies, in words. At the end what is left over lies apart, and nothing is to be shared any more. */
  const room = (state, isAtTheEnd) => {
    const { division } = shown;
    const bank = division.bank(state);
    const [more, fewer] = [1, -1].map((sign) => pieces(bank.map((count) => Math.max(sign * count, 0))));
    return [
      say(isAtTheEnd && division.remainder ? "alternative.left-over" : "lesson.middle", {
        pieces: pieces(state.middle),
      }),
      say("movements.trays", { trays: capital(traysWords(state, division)) }),
      ...(bank.some(Boolean) ? [say("movements.bank", { more, fewer })] : []),
      say("movements.to-share", { number: isAtTheEnd ? 0 : division.toShare(state) }),
    ];
  };

  /** @type {(go: string) => number} after how many movements the mat is shown when a button is used */
  const target = (go) => {
    const { movements, position } = shown;
    const last = movements.length;
    const places = movements.flatMap(({ stage }, index) => (stage === movements[index - 1]?.stage ? [] : [index]));
    return {
      first: 0,
      "place-back": places.filter((index) => index < position).pop() ?? 0,
      back: Math.max(position - 1, 0),
      next: Math.min(position + 1, last),
      "place-on": [...places, last].find((index) => index > position) ?? last,
      last,
    }[go];
  };

  const go = (way) => {
    if (isHidden(way)) return;
    practise.forget();
    move(target(way));
  };

  const move = (position) => {
    if (position === shown.position) return;
    shown.position = position;
    draw();
    note(shown.asked, { movement: position });
  };

  const KEYS = { ArrowLeft: "back", ArrowRight: "next", Home: "first", End: "last" };

  /** Follow buttons, keys, fingers and addresses. */
  const watch = () => {
    for (const button of buttons) on(button, "click", () => go(button.dataset.go));
    on(byId("movement-by-movement"), "keydown", (event) => {
      const way = KEYS[event.key];
      if (!way || event.altKey || event.ctrlKey || event.metaKey || event.target.matches("input")) return;
      event.preventDefault();
      go(way);
    });
    sharing.watchSwipes(byId("movement-mat"), (isOn) => go(isOn ? "next" : "back"));
    practise.watch(draw, () => move(shown.position + 1));
    on(window, "hashchange", () => {
      if (!shown.asked || readMovement() === null) return;
      show(shown.asked, shown.division);
      reveal();
    });
  };

  /** Bring the mat into view where the address asks for a movement. */
  const reveal = () => {
    if (readMovement() !== null) byId("movement-by-movement").scrollIntoView();
  };

  sharing.movementByMovement = { show, watch, reveal, level };
}
