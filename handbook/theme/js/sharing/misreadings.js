// Slips of reading: the beads are right, and what is read is not.
"use strict";
{
  const { UNITS, digitsOf, valueOf } = sharing.places;
  const { readings, beadsOn } = sharing.observations;
  const { occasionOf, outcomeOf } = sharing.slips;

  /** @type {(division: Division) => Outcome[]} every slip of reading at the close of a sharing */
  const misreadings = (division) => [...withBigTray(division), ...withCards(division)];

  /** Who stands for one reads what a larger tray holds; where nobody does, the answer is read beside the trays. */
  function* withBigTray(division) {
    const trays = division.trays(division.end);
    const larger = beadsOn(trays).filter((tray) => tray.stands_for > 1);
    const widths = division.widths;
    for (const [index, { value }] of larger.entries()) {
      if (!value) continue;
      const answer = { value, sharers: division.mat[UNITS] || 1, stands_for: 1 };
      const occasion = occasionOf("big-tray-read", null, { other: widths[index] });
      yield outcomeOf(occasion, trays, division.end.middle, readings([...larger, answer]));
    }
  }

  /** The share is read from cards that are not right: one child's, or everybody's. */
  function* withCards(division) {
    const { end } = division;
    const trays = division.trays(end);
    const beads = beadsOn(trays);
    const last = beads.at(-1);
    for (const [occasion, value] of misread(digitsOf(division.quotient))) {
      const one = { value: value * last.stands_for, sharers: 1, stands_for: last.stands_for };
      const byOne = readings([...beads, { ...last, sharers: -1 }, one]);
      yield outcomeOf({ ...occasion, spot: "one-tray" }, trays, end.middle, byOne);
      if (division.sharers > 1) {
        const byAll = readings(beads.map((tray) => ({ ...tray, value: value * tray.stands_for })));
        yield outcomeOf({ ...occasion, spot: "every-tray" }, trays, end.middle, byAll);
      }
    }
  }

  /** Two places swapped, one zero forgotten, every zero forgotten: and what the cards read then. */
  function* misread(digits) {
    for (let low = 0; low < digits.length; low += 1) {
      for (let high = low + 1; high < digits.length; high += 1) {
        if (digits[low] === digits[high]) continue;
        const swapped = [...digits];
        [swapped[low], swapped[high]] = [digits[high], digits[low]];
        yield [occasionOf("cards-swapped", high, { other: low }), valueOf(swapped)];
      }
    }
    const zeros = [...digits.keys()].filter((place) => !digits[place]);
    if (!valueOf(digits) || !zeros.length) return;
    for (const zero of zeros) {
      yield [occasionOf("zero-forgotten", zero), valueOf(digits.filter((_, place) => place !== zero))];
    }
    if (zeros.length > 1) {
      const occasion = occasionOf("zero-forgotten", zeros.at(-1), { many: zeros.length });
      yield [occasion, valueOf(digits.filter(Boolean))];
    }
  }

  sharing.misreadings = { misreadings };
}
