// The slips that are followed, when they happen, and what one leaves behind.
"use strict";
{
  const { valueOf } = sharing.places;
  const { beadsOn } = sharing.observations;

  /** Every slip, the likeliest first: common practice, no source. The first two need ribbons. */
  const SLIPS = [
    "big-tray-read",
    "ribbon-given-same-kind",
    "left-over-dealt",
    "round-not-taken-back",
    "child-skipped",
    "bank-counts-nine",
    "bank-counts-eleven",
    "child-dealt-twice",
    "none-of-a-place",
    "zero-forgotten",
    "piece-not-banked",
    "piece-rolled-away",
    "laid-out-too-few",
    "laid-out-too-many",
    "tray-too-few",
    "tray-too-many",
    "cards-swapped",
    "bank-wrong-kind",
  ];

  /**
   * One slip, and where and when it happens. place: of the pieces it is about, null for every place; turn: which
   * exchange or round, from 1, or 0; other: the kind that came from the bank or went to a ribbon, the smaller of two
   * places swapped, or the power of ten of the tray that was read, has none or was given the same; many: how many trays
   * kept a piece, pieces a tray lacks or zeros were forgotten; spot: where a piece ended up, or which trays it is
   * about.
   * @typedef {{slip: string, place: number | null, turn: number, other: number | null, many: number,
   *   spot: string | null}} Occasion
   */

  /**
   * The room at the close after one slip. trays: what lies on them, in the order of dealing, within one kind who has
   * more first; left: the pieces left over; seen: what is read at the close.
   * @typedef {{occasion: Occasion, trays: Tray[], left: Counts, seen: Observation}} Outcome
   */

  /** @type {(slip: string, place: number | null, more?: Partial<Occasion>) => Occasion} */
  const occasionOf = (slip, place, more = {}) => ({ slip, place, turn: 0, other: null, many: 1, spot: null, ...more });

  /** @type {(occasion: Occasion, trays: Tray[], left: Counts, read?: Reading[]) => Outcome} read: other than it lies */
  const outcomeOf = (occasion, trays, left, read = beadsOn(trays)) => ({
    occasion,
    trays,
    left,
    seen: { trays: read, left: valueOf(left) },
  });

  sharing.slips = { SLIPS, occasionOf, outcomeOf };
}
