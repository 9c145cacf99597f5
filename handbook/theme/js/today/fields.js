// The fields in which a number and a group are asked. What is wrong is said beside its field, and then nothing changes.
"use strict";
{
  const { digitsOf, valueOf } = sharing.places;
  const { isNumber, isGroup } = sharing.limits;
  const { wholeNumber, askedOf } = sharing.address;
  const { byId, tellFault, say, on } = sharing.elements;

  const ribbonFields = ["ask-for-one", "ask-for-ten", "ask-for-hundred"].map(byId);

  /**
   * What the fields ask; null where one of them is wrong, which is said beside it. Empty fields are no fault while they
   * are still to be filled: the number before the first answer, the group also while the number is being written.
   * @type {(isWriting?: boolean) => Asked | null}
   */
  const asked = (isWriting = false) => {
    const number = wholeNumber(byId("ask-number").value);
    const { ribbons, children } = group();
    const isToCome = (id) => byId("answer").hidden && !byId(id).value;
    tell("number", isNumber(number) || isToCome("ask-number"));
    tell("children", ribbons || isGroup(children, false) || (isWriting && isToCome("ask-children")));
    const areToCome = isWriting && ribbonFields.every(({ id }) => isToCome(id));
    const wrong = !ribbons || areToCome || isGroup(children, true) ? [] : wrongRibbonFields();
    tellFault("ask-for-one", say("today.fault.ribbons"), ribbonFields, (field) => wrong.includes(field));
    return askedOf({ number, children, ribbons });
  };

  /** The fields that hold no digit; if all hold one, all are wrong, because the group is. */
  const wrongRibbonFields = () => {
    const odd = ribbonFields.filter((field) => !isDigit(countIn(field)));
    return odd.length ? odd : ribbonFields;
  };

  /** An empty field stands for none. */
  const countIn = ({ value }) => wholeNumber(value || "0");

  const isDigit = (count) => count !== null && count <= 9;

  const group = () => {
    const ribbons = byId("ask-ribbons").checked;
    return { ribbons, children: ribbons ? standFor() : wholeNumber(byId("ask-children").value) };
  };

  /** How many the children with ribbons stand for together; null where a field holds no digit. */
  const standFor = () => {
    const counts = ribbonFields.map(countIn);
    return counts.every(isDigit) ? valueOf(counts) : null;
  };

  /** Mark a field that stands alone, and say what is wrong with it. */
  const tell = (what, isRight) => {
    const id = `ask-${what}`;
    tellFault(id, say(`today.fault.${what}`), [byId(id)], () => !isRight);
  };

  /**
   * Write into the fields what the address tells; what is wrong of it is said.
   * @type {(told: {number: number | null, children: number | null, ribbons: boolean, texts: Texts}) => void}
   */
  const show = ({ number, children, ribbons, texts }) => {
    if (texts.number !== null) byId("ask-number").value = String(number ?? texts.number);
    byId("ask-ribbons").checked = ribbons;
    chooseSort();
    if (children !== null) showChildren(children, ribbons);
    else if (texts.children !== null) byId(ribbons ? "ask-for-one" : "ask-children").value = texts.children;
    asked(true);
  };

  const showChildren = (children, ribbons) => {
    if (!ribbons) {
      byId("ask-children").value = String(children);
      return;
    }
    const counts = digitsOf(children);
    ribbonFields.forEach((field, place) => (field.value = String(counts[place] ?? 0)));
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

  /** @type {() => number | null} how many children share without ribbons, also before a number is written */
  const sharers = () => {
    const { ribbons, children } = group();
    return !ribbons && isGroup(children, false) ? children : null;
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
      changed(asked(true), true);
    });
    // Who leaves the field of the number, or ticks ribbons, goes on to the group.
    const GOES_ON = ["ask-number", "ask-ribbons"];
    on(form, "change", ({ target }) => changed(asked(GOES_ON.includes(target.id)), false));
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
