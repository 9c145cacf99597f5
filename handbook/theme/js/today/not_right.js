// Something is not right: what every tray reads and what is left over -> the likeliest slip, and what puts it right.
"use strict";
{
  const { valueOf } = sharing.places;
  const { offBy } = sharing.observations;
  const { diagnoser, isToShareOn } = sharing.diagnosis;
  const { explain, eachEventOnce } = sharing.slipWords;
  const { unexplained } = sharing.unexplained;
  const { isNumber } = sharing.limits;
  const { placeTexts, screens } = sharing.lessonWords;
  const { wholeNumber, readSeen, readAfter, note } = sharing.address;
  const { element, byId, setText, tellFault, say, on, onceWritten } = sharing.elements;

  /** A screen of the lesson by its name, and the room as it should be after it; undefined once all is shared out. */
  const roomAfter = (screen, division) => {
    const shown = screens(placeTexts(division));
    const at = shown.findIndex(({ id }) => id === screen);
    const rooms = [division.beginning, ...division.stages.flatMap(({ parts }) => parts.map(({ after }) => after))];
    return rooms[at] && { name: shown[at].name, room: rooms[at] };
  };

  /**
   * Lay out a field for every tray and for what is left over, as the address tells or as they should be.
   * @type {(asked: Asked, division: Division) => void}
   */
  const show = (asked, division) => {
    const trays = division.widths.flatMap((width) => Array(division.mat[width]).fill(10 ** width));
    const presented = readAfter() && roomAfter(readAfter(), division);
    const { share, middle } = presented?.room ?? division.end;
    const told = presented ? null : readSeen();
    const fits = told?.seen.map(({ stands_for }) => stands_for).join() === trays.join();
    const each = valueOf(share);
    const seen = fits ? told.seen : trays.map((stands_for) => ({ stands_for, value: each * stands_for }));
    const left = fits ? (told.left ?? "") : valueOf(middle);
    const diagnose = diagnoser(division.dividend, division.divisor, division.ribbons);
    const answer = () => {
      const inputs = [...byId("trays-seen").querySelectorAll("input")];
      if (tellFault("seen", say("today.fault.seen"), inputs, ({ value }) => !canBeRead(wholeNumber(value)))) {
        tell("");
        return;
      }
      const values = inputs.map(({ value }) => wholeNumber(value));
      const counted = values.pop();
      const now = values.map((value, index) => ({ stands_for: trays[index], value }));
      tellAbout(division, diagnose(now, counted));
      note(asked, { seen: { seen: now, left: counted } });
    };
    const trayKey = division.ribbons ? "today.tray-for" : "today.tray";
    const fields = seen.map(({ stands_for, value }, index) =>
      field(say(trayKey, { tray: index + 1, stands_for }), `tray-${index + 1}`, value, answer),
    );
    byId("trays-seen").replaceChildren(...fields, field(say("today.left-over"), "tray-left", left, answer));
    setText("seen-fault", "");
    const areRead = fits && [...seen.map(({ value }) => value), left].every(canBeRead);
    if (areRead) tellAbout(division, diagnose(seen, left));
    else if (fits) answer(); // a field is wrong, which is said
    else if (presented) tell(say("today.as-after", { screen: presented.name }));
    else tell(say(told ? "today.trays-do-not-fit" : "today.change-what-differs"));
  };

  /** No tray holds more than the largest number. */
  const canBeRead = (value) => value === 0 || isNumber(value);

  /** A field for a number between two buttons by which it gets smaller and larger. */
  const field = (name, id, value, changed) => {
    const input = element("input", { id, inputmode: "numeric", value, "aria-describedby": "seen-fault" });
    onceWritten(input, changed);
    const step = (by, sign, key) => {
      const button = element("button", { type: "button", "aria-label": say(key, { name }) }, sign);
      on(button, "click", () => {
        input.value = String(Math.max(0, (wholeNumber(input.value) ?? 0) + by));
        changed();
      });
      return button;
    };
    const steps = element("span.steps", step(-1, "−", "today.one-less"), input, step(1, "+", "today.one-more"));
    return element("p.field", element("label", { for: id }, name), steps);
  };

  const tell = (total, ...told) => {
    setText("not-right-total", total);
    byId("not-right-told").replaceChildren(...told);
  };

  const tellAbout = (division, diagnosis) =>
    tell(totalWords(division.dividend, diagnosis.seen), ...advice(division, diagnosis));

  /** Whether it is right; else what may have happened and what to do. */
  const advice = (division, diagnosis) => {
    const { consistent, causes, seen } = diagnosis;
    if (consistent) return [right(say("today.all-right"))];
    const goOn = isToShareOn(diagnosis) ? [right(say("unexplained.share-on"))] : [];
    if (goOn.length || causes.length) return [...goOn, ...explained(causes, division)];
    const [first, ...others] = unexplained(division, seen);
    return [right(first), ...others.map((words) => element("p", words))];
  };

  const right = (words) => element("p.right", words);

  /** The likeliest cause, the others folded. */
  const explained = (causes, division) => {
    const [likeliest, ...others] = toldOnce(eachEventOnce(causes).map((one) => explain(one, division, causes)));
    if (!others.length) return likeliest ? [cause(likeliest)] : [];
    const summary = element("summary", say("today.other-causes", { count: others.length }));
    const newIn = (one) => (one.mend === likeliest.mend ? { ...one, mend: say("today.same-mend") } : one);
    return [cause(likeliest), element("details", summary, ...others.map(newIn).map(cause))];
  };

  /** One of all explanations of the same event, which differ by the pieces in the middle: the shortest repair. */
  const toldOnce = (causes) => {
    const alike = new Map();
    for (const told of causes) alike.set(told.happened, [...(alike.get(told.happened) ?? []), told]);
    return [...alike.values()].map((same) => {
      const [shortest, ...longer] = same.sort((one, other) => one.mend.length - other.mend.length);
      const besides = say("repair.not-there");
      if (!longer.length || shortest.mend.includes(besides)) return shortest;
      return { ...shortest, mend: `${shortest.mend} ${besides}` };
    });
  };

  const totalWords = (dividend, seen) => {
    const off = offBy(seen, dividend);
    if (!off) return say("today.total.right", { dividend });
    return say(off < 0 ? "today.total.fewer" : "today.total.more", { total: dividend + off, count: Math.abs(off) });
  };

  const cause = ({ happened, look, mend }) =>
    element(
      "div.cause",
      element("h3", say("slips.what-happened")),
      element("p", `${happened} ${look}`),
      element("h3", say("today.what-to-do")),
      element("p.mend", mend),
    );

  sharing.notRight = { show };
}
