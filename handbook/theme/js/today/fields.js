// The fields in which a number and a group are asked. What is wrong is said beside its field, and then nothing changes.
"use strict";
{
  const { digitsOf, valueOf, sum } = sharing.places;
  const { isNumber, isGroup } = sharing.limits;
  const { wholeNumber, askedOf } = sharing.address;
  const { byId, say, on } = sharing.elements;

  const RIBBON_FIELDS = ["ask-for-one", "ask-for-ten", "ask-for-hundred"];

  /** @type {() => Asked | null} what the fields ask; null where one of them is wrong, which is said beside it */
  const asked = () => {
    const number = wholeNumber(byId("ask-number").value);
    const { ribbons, children } = group();
    const isToCome = byId("answer").hidden && !byId("ask-number").value;
    tell("ask-number", isNumber(number) || isToCome ? "" : "number");
    tell("ask-children", ribbons || isGroup(children, false) ? "" : "children");
    tell("ask-for-one", !ribbons || isGroup(children, true) ? "" : "ribbons");
    return askedOf({ number, children, ribbons });
  };

  const group = () => {
    const ribbons = byId("ask-ribbons").checked;
    return { ribbons, children: ribbons ? standFor() : wholeNumber(byId("ask-children").value) };
  };

  /** How many the children with ribbons stand for together; null where a field holds no digit. */
  const standFor = () => {
    const counts = RIBBON_FIELDS.map((id) => wholeNumber(byId(id).value || "0"));
    return counts.some((count) => count === null || count > 9) ? null : valueOf(counts);
  };

  const tell = (id, fault) => {
    const text = fault && say(`today.fault.${fault}`);
    const line = byId(`${id}-fault`);
    if (line.textContent !== text) line.textContent = text;
    byId(id).setAttribute("aria-invalid", String(Boolean(fault)));
  };

  /**
   * Write into the fields what the address tells; what is wrong of it is said, if nothing of it is missing.
   * @type {(told: {number: number | null, children: number | null, ribbons: boolean}) => void}
   */
  const show = ({ number, children, ribbons }) => {
    if (number !== null) byId("ask-number").value = String(number);
    byId("ask-ribbons").checked = ribbons;
    chooseSort();
    if (children !== null) showChildren(children, ribbons);
    if (number !== null && children !== null) asked();
  };

  const showChildren = (children, ribbons) => {
    if (!ribbons) {
      byId("ask-children").value = String(children);
      return;
    }
    const counts = digitsOf(children);
    RIBBON_FIELDS.forEach((id, place) => (byId(id).value = String(counts[place] ?? 0)));
  };

  /** Show the fields for plain sharing or for ribbons. */
  const chooseSort = () => {
    const ribbons = byId("ask-ribbons").checked;
    byId("plain-children").hidden = ribbons;
    byId("children-with-ribbons").hidden = !ribbons;
  };

  /** Whoever ticks ribbons may have written how many share: of twelve, one child stands for ten and two for one. */
  const fillInRibbons = () => {
    const children = wholeNumber(byId("ask-children").value);
    if (isGroup(children, true)) showChildren(children, true);
  };

  /** @type {() => number | null} how many children share, also before a number is written */
  const sharers = () => {
    const { ribbons, children } = group();
    return isGroup(children, ribbons) ? sum(ribbons ? digitsOf(children) : [children]) : null;
  };

  /**
   * Call it whenever the fields change, and once they are left.
   * @type {(changed: (asked: Asked | null, isTyping: boolean) => void) => void}
   */
  const watch = (changed) => {
    const form = byId("asking");
    on(form, "input", ({ target }) => {
      if (target.checked) fillInRibbons();
      chooseSort();
      changed(asked(), true);
    });
    on(form, "change", () => changed(asked(), false));
    for (const button of form.querySelectorAll("button[data-by]")) {
      on(button, "click", () => {
        const field = byId("ask-children");
        field.value = String(Math.max(0, (wholeNumber(field.value) ?? 1) + Number(button.dataset.by)));
        changed(asked(), false);
      });
    }
  };

  sharing.fields = { watch, asked, show, sharers };
}
