// Something is not right: what every tray reads and what is left over -> the likeliest slip, and what puts it right.
"use strict";
{
  const { sum } = sharing.places;
  const { diagnoser, isToShareOn } = sharing.diagnosis;
  const { explain } = sharing.slipWords;
  const { unexplained } = sharing.unexplained;
  const { wholeNumber, readSeen, note } = sharing.address;
  const { element, byId, say, on } = sharing.elements;

  /**
   * Lay out a field for every tray and for what is left over, as the address tells or as they should be.
   * @type {(asked: Asked, division: Division) => void}
   */
  const show = (asked, division) => {
    const trays = division.widths.flatMap((width) => Array(division.mat[width]).fill(10 ** width));
    const told = readSeen();
    const fits = told?.seen.map(({ stands_for }) => stands_for).join() === trays.join();
    const seen = fits ? told.seen : trays.map((stands_for) => ({ stands_for, value: division.quotient * stands_for }));
    const left = fits ? (told.left ?? "") : division.remainder;
    const fields = seen.map(({ stands_for, value }, index) =>
      field(
        say(division.ribbons ? "today.tray-for" : "today.tray", { tray: index + 1, stands_for }),
        `tray-${index + 1}`,
        value,
      ),
    );
    fields.push(field(say("today.left-over"), "tray-left", left));
    const diagnose = diagnoser(division.dividend, division.divisor, division.ribbons);
    byId("trays-seen").replaceChildren(...fields.map(({ whole }) => whole));
    const answer = () => {
      const values = fields.map(({ input }) => wholeNumber(input.value));
      const wrong = values.map((value) => value === null);
      fields.forEach(({ input }, index) => input.setAttribute("aria-invalid", String(wrong[index])));
      const isWrong = wrong.some(Boolean);
      byId("seen-fault").textContent = isWrong ? say("today.fault.seen") : "";
      if (isWrong) {
        tellOnly("");
        return;
      }
      const counted = values.pop();
      const now = values.map((value, index) => ({ stands_for: trays[index], value }));
      tell(division, diagnose, now, counted);
      note(asked, { seen: { seen: now, left: counted } });
    };
    for (const { input, steps } of fields) {
      on(input, "input", answer);
      for (const [button, by] of steps) {
        on(button, "click", () => {
          input.value = String(Math.max(0, (wholeNumber(input.value) ?? 0) + by));
          answer();
        });
      }
    }
    if (fits && left !== "") tell(division, diagnose, seen, left);
    else if (fits) answer(); // the field of what is left over is empty, which is said
    else tellOnly(say(told ? "today.trays-do-not-fit" : "today.change-what-differs"));
  };

  const field = (name, id, value) => {
    const settings = { id, inputmode: "numeric", value: String(value), "aria-describedby": "seen-fault" };
    const input = element("input", settings);
    const less = element("button", { type: "button", "aria-label": say("today.one-less", { name }) }, "−");
    const more = element("button", { type: "button", "aria-label": say("today.one-more", { name }) }, "+");
    const steps = [[less, -1], [more, 1]];
    const whole = element("p.field", element("label", { for: id }, name), element("span.steps", less, input, more));
    return { whole, input, steps };
  };

  const tellOnly = (words) => {
    byId("not-right-total").textContent = words;
    byId("not-right-told").replaceChildren();
  };

  const tell = (division, diagnose, seen, left) => {
    const total = sum(seen.map(({ value }) => value)) + left;
    byId("not-right-total").textContent = totalWords(total, division.dividend);
    const diagnosis = diagnose(seen, left);
    const { consistent, causes } = diagnosis;
    const goOn = isToShareOn(diagnosis) ? [element("p.right", say("unexplained.share-on"))] : [];
    const told = byId("not-right-told");
    if (consistent) told.replaceChildren(element("p.right", say("today.all-right")));
    else if (goOn.length || causes.length) told.replaceChildren(...goOn, ...explained(causes, division));
    else {
      const [first, ...others] = unexplained(division, diagnosis.seen);
      told.replaceChildren(element("p.right", first), ...others.map((words) => element("p", words)));
    }
  };

  /** The likeliest cause, the others folded. */
  const explained = (causes, division) => {
    const [likeliest, ...others] = toldOnce(causes.map((one) => explain(one, division, causes))).map(cause);
    if (!others.length) return likeliest ? [likeliest] : [];
    const summary = element("summary", say("today.other-causes", { count: others.length }));
    return [likeliest, element("details", summary, ...others)];
  };

  /** What reads alike leaves other pieces in the middle: of what puts it right the shortest is told. */
  const toldOnce = (causes) => {
    const alike = new Map();
    for (const told of causes) alike.set(told.happened, [...(alike.get(told.happened) ?? []), told]);
    return [...alike.values()].map((same) => {
      const [shortest, ...longer] = same.sort((one, other) => one.mend.length - other.mend.length);
      return longer.length ? { ...shortest, mend: `${shortest.mend} ${say("unexplained.not-there")}` } : shortest;
    });
  };

  const totalWords = (total, dividend) => {
    if (total === dividend) return say("today.total.right", { dividend });
    const count = Math.abs(total - dividend);
    return say(total < dividend ? "today.total.fewer" : "today.total.more", { total, count });
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
