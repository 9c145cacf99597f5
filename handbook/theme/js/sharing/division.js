// One division, worked out: the number, who shares it, every step, and all that follows from them.
"use strict";
{
  const { digitsOf, valueOf, sum, placesHeld, at, less, downFrom } = sharing.places;
  const { beginning, deal } = sharing.dealing;
  const { firstServed, everyTray } = sharing.trays;

  const MOST_TRIPS_APART = 3;

  /**
   * Pieces of one place exchanged in one go: `times` of them, when so many rounds had been given out.
   * @typedef {{place: number, times: number, rounds: number}} Trip
   */

  /**
   * All that happens at one level, from the largest to the units. For every place: end = start - rounds x sharers
   * served with it - exchanged + 10 x exchanged one place up.
   */
  class Stage {
    /**
     * @param {number} level
     * @param {State} before the room before its first movement
     * @param {Step[]} steps
     * @param {boolean} unfinished whether some of the largest pieces that a round takes remain, too few for another
     * @param {number} [roundsInAll] of the whole stage, where this is a part of it
     */
    constructor(level, before, steps, unfinished, roundsInAll) {
      Object.assign(this, { level, before, steps, unfinished });
      /** @type {State} the room after its last movement */
      this.after = steps.at(-1)?.after ?? before;
      this.start = before.middle;
      this.end = this.after.middle;
      const given = this.after.share[level];
      this.rounds = given - before.share[level];
      /** Whether it is a part of a stage after which more rounds are given out. */
      this.goesOn = given < roundsInAll;
      /** Whether it is a part of a stage in which pieces are exchanged and nothing else happens. */
      this.atTheBank = roundsInAll >= 0 && endsAtTheBank(steps) && !this.rounds;
      /** Whether what then lies in the middle is left over. */
      this.endsTheSharing = !level && !this.goesOn;
      this.exchanged = exchangedIn(steps, this.start);
    }

    /** @returns {Step[]} its steps without the one that goes on to this level */
    get movements() {
      return this.steps.filter(({ action }) => action !== "next-place");
    }

    /** @returns {Trip[]} the exchanges in order, also those that ribbons can need between two rounds */
    get trips() {
      const trips = [];
      for (const { action, place, after } of this.steps) {
        if (action !== "exchange") continue;
        const rounds = after.share[this.level];
        const last = trips.at(-1);
        if (last?.place === place && last.rounds === rounds) last.times += 1;
        else trips.push({ place, times: 1, rounds });
      }
      return trips;
    }

    /** @returns {number} how many movements are made when the last round is given out */
    get roundsEnd() {
      return this.movements.map(({ action }) => action).lastIndexOf("deal-round") + 1;
    }

    /**
     * The stage cut up: every trip to the bank, and the rounds before, between and after trips. Where rounds need more
     * than MOST_TRIPS_APART trips, all up to the last round is one part.
     * @returns {Stage[]}
     */
    get parts() {
      const { level, unfinished, rounds } = this;
      let groups = rounds ? [] : [[]]; // the second: a part in which people see that no round can be given out
      for (const step of this.movements) {
        if (groups.length && endsAtTheBank(groups.at(-1)) === endsAtTheBank([step])) groups.at(-1).push(step);
        else groups.push([step]);
      }
      const later = endsAtTheBank(groups.at(-1)) ? [groups.pop()] : [];
      if (groups.filter(endsAtTheBank).length > MOST_TRIPS_APART) groups = [groups.flat()];
      let { before } = this;
      return [...groups, ...later].map((steps) => {
        const part = new Stage(level, before, steps, unfinished, rounds);
        before = part.after;
        return part;
      });
    }
  }

  /** @type {(steps: Step[], start: Counts) => Counts} how many pieces of each place go to the bank */
  const exchangedIn = (steps, start) =>
    start.map((_, at) => steps.filter(({ action, place }) => action === "exchange" && place === at).length);

  const endsAtTheBank = (steps) => steps.at(-1)?.action === "exchange";

  /** One division, worked out. Counts hold every place of the dividend. */
  class Division {
    /**
     * @param {number} dividend a whole number >= 0
     * @param {Counts} mat how many stand for 1, 10, 100
     * @param {boolean} [lookFirst] no round is begun that cannot be finished; otherwise it is begun and taken back
     */
    constructor(dividend, mat, lookFirst = false) {
      this.dividend = dividend;
      this.mat = mat;
      this.lookFirst = lookFirst;
      this.divisor = valueOf(mat);
      this.sharers = sum(mat);
      /** Whether somebody stands for ten or more. */
      this.ribbons = mat.length > 1;
      this.start = digitsOf(dividend);
      this.beginning = beginning(this.start, mat);
      /** @type {Step[]} */
      this.steps = deal(this.start, mat, lookFirst);
      /** @type {Stage[]} one per level down to the units, also where no round can be dealt */
      this.stages = stagesOf(this);
      /** @type {State} */
      this.end = this.steps.at(-1).after;
      /** The share of one who stands for one. */
      this.quotient = valueOf(this.end.share);
      this.remainder = valueOf(this.end.middle);
      /** Every piece that is moved, from laying out the number to setting aside what is left. */
      this.handlings = sum(this.start) + sum(this.steps.map((step) => step.pieces));
    }

    /** @returns {number[]} the powers of ten that somebody stands for, the largest first */
    get widths() {
      return placesHeld(this.mat);
    }

    /** @returns {Counts} how many pieces of each place go to the bank */
    get exchanged() {
      return exchangedIn(this.steps, this.start);
    }

    /** @returns {number[]} the places of which the bank gains or gives pieces, largest first */
    get placesOfTheBank() {
      const { exchanged } = this;
      return downFrom(exchanged.length).filter((place) => exchanged[place] || exchanged[place + 1]);
    }

    get exchanges() {
      return sum(this.exchanged);
    }

    /** @type {(action: string) => Step[]} */
    stepsOf(action) {
      return this.steps.filter((step) => step.action === action);
    }

    /** @type {(state: State) => number} what is still to be shared: falls with every whole round only */
    toShare(state) {
      return this.dividend - this.divisor * valueOf(state.share);
    }

    /** @type {(state: State) => Tray[]} equal trays together, in the order of dealing */
    trays({ share, level, ahead }) {
      return everyTray(this.mat, share, firstServed(this.mat, level, ahead));
    }

    /** @type {(state: State) => Counts} the pieces out of the bank: in the middle and on all trays together */
    outOfTheBank(state) {
      const room = [...state.middle];
      for (const tray of this.trays(state)) {
        tray.holds.forEach((pieces, place) => (room[place] += tray.sharers * pieces));
      }
      return room;
    }

    /** @type {(state: State) => Counts} what the bank has gained since the beginning; below zero: given out */
    bank(state) {
      return less(this.start, this.outOfTheBank(state));
    }

    /** @returns {Counts} the most pieces of each place that are out of the bank at one moment */
    get piecesNeeded() {
      const exchanges = this.stepsOf("exchange");
      const moments = [this.start, ...exchanges.map((step) => this.outOfTheBank(step.after))];
      return this.start.map((_, place) => Math.max(...moments.map((room) => room[place])));
    }

    /** @returns {Counts} the most that come from the bank besides what is laid out at the start */
    get fromBank() {
      return less(this.piecesNeeded, this.start);
    }
  }

  const stagesOf = ({ beginning, steps, mat }) => {
    let before = beginning;
    return downFrom(beginning.level + 1).map((level) => {
      const ofLevel = steps.filter(({ after }) => after.level === level);
      const dealt = ofLevel.filter(({ action }) => action === "deal-round").pop()?.after ?? before;
      const stage = new Stage(level, before, ofLevel, at(dealt.middle, level + mat.length - 1) > 0);
      before = stage.after;
      return stage;
    });
  };

  /**
   * One division of whole numbers >= 0 and >= 1; with ribbons every digit of the divisor is a group of sharers.
   * @type {(dividend: number, divisor: number, how?: {ribbons?: boolean, lookFirst?: boolean}) => Division}
   */
  const workOut = (dividend, divisor, { ribbons = false, lookFirst = false } = {}) =>
    new Division(dividend, ribbons ? digitsOf(divisor) : [divisor], lookFirst);

  sharing.division = { Division, workOut };
}
