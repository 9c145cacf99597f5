// What is asked of the page, as fields and as the address hold it: "#number=4327&children=6", with ribbons
// "#number=3432&children=12&ribbons", with what is seen on the trays "&seen=1204,1203&left=2"
// and how many movements are shown "&movement=7"; "&after=hundreds" where the lesson has been presented so far.
"use strict";
{
  const { isNumber, isGroup } = sharing.limits;

  /**
   * One division to work out. children: how many share; with ribbons how many they stand for together.
   * @typedef {{number: number, children: number, ribbons: boolean}} Asked
   */

  /** @type {(text: string) => number | null} a whole number, its digits in threes or not, of whatever width they are */
  const wholeNumber = (text) => {
    const digits = text.normalize("NFKC").trim();
    const plain = /^[1-9]\d{0,2}([ ,.'’]\d{3})+$/.test(digits) ? digits.replace(/\D/g, "") : digits;
    return /^\d{1,6}$/.test(plain) ? Number(plain) : null;
  };

  /**
   * What is asked, if it can be answered.
   * @type {(told: {number: number | null, children: number | null, ribbons: boolean}) => Asked | null}
   */
  const askedOf = (told) => (isNumber(told.number) && isGroup(told.children, told.ribbons) ? told : null);

  const given = () => new URLSearchParams(location.hash.slice(1));

  /**
   * What the address tells of a division, whether it can be answered or not: null where it tells no whole number, and
   * `texts` as they stand there, null where it tells nothing.
   * @typedef {{number: string | null, children: string | null}} Texts
   * @type {() => {number: number | null, children: number | null, ribbons: boolean, texts: Texts}}
   */
  const readAsked = () => {
    const parts = given();
    const texts = { number: parts.get("number"), children: parts.get("children") };
    const [number, children] = [texts.number, texts.children].map((text) => wholeNumber(text ?? ""));
    return { number, children, ribbons: parts.has("ribbons"), texts };
  };

  /** @type {(asked: Asked) => string} */
  const write = ({ number, children, ribbons }) => `#number=${number}&children=${children}${ribbons ? "&ribbons" : ""}`;

  /**
   * What is read on the trays, and what is left over where that is told.
   * @typedef {{seen: {stands_for: number, value: number}[], left: number | null}} Seen
   */

  /** @type {() => Seen | null} those who stand for most first, none where one is unreadable; null if untold */
  const readSeen = () => {
    const parts = given();
    if (!parts.has("seen")) return null;
    const seen = parts.get("seen").split(",").map((tray) => {
      const [value, stands_for = "1"] = tray.split(":").reverse();
      return { stands_for: Number(stands_for), value: wholeNumber(value) };
    });
    seen.sort((one, other) => other.stands_for - one.stands_for);
    const left = wholeNumber(parts.get("left") ?? "");
    return { seen: seen.every(({ value }) => value !== null) ? seen : [], left };
  };

  const writeSeen = ({ seen, left }) => {
    const trays = seen.map(({ stands_for, value }) => (stands_for === 1 ? value : `${stands_for}:${value}`));
    return `&seen=${trays.join(",")}` + (left === null ? "" : `&left=${left}`);
  };

  /** @type {() => number | null} */
  const readMovement = () => wholeNumber(given().get("movement") ?? "");

  /** @type {() => string | null} the id of the screen after which the room should be as it is to be shown */
  const readAfter = () => given().get("after");

  /**
   * The address of a division with what is seen and how many movements are shown; as now where that is not given.
   * @type {(asked: Asked, parts?: {seen?: Seen | null, movement?: number | null}) => string}
   */
  const writeAll = (asked, { seen = readSeen(), movement = readMovement() } = {}) =>
    write(asked) + (seen?.seen.length ? writeSeen(seen) : "") + (movement === null ? "" : `&movement=${movement}`);

  /** Note in the address what is seen or how many movements are shown, beside what it says already. */
  const note = (asked, parts) => sharing.writeAddress(writeAll(asked, parts));

  /** @type {() => string} the id of the part that the address leads to; empty where it ends otherwise */
  const part = () => {
    const last = location.hash.split(/[#&]/).pop();
    return last === "ribbons" || last.includes("=") ? "" : last;
  };

  sharing.address = { wholeNumber, askedOf, readAsked, write, writeAll, readSeen, readAfter, readMovement, note, part };
}
