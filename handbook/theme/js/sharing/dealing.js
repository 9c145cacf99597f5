// The dealing rule: from pieces in the middle to equal trays, hand movement by hand movement. One rule gives plain
// sharing and ribbons: at level p a sharer who stands for 10^w is dealt pieces of place p + w.
"use strict";
{
  const { UNITS, placesHeld, sum, less } = sharing.places;

  /**
   * What the hands do: "deal-round", "start-round", "take-back", "exchange", "set-aside", "next-place", "nothing-here".
   * @typedef {string} Action
   */

  /**
   * The room after a step. What is set aside still counts as lying in the middle; `ahead` is how many sharers have
   * their piece of a round that cannot be finished.
   * @typedef {{middle: Counts, share: Counts, level: number, ahead: number}} State
   */

  /**
   * One hand movement and the room after it. `place` is the piece exchanged, or else the place dealt to a sharer who
   * stands for one; `pieces` is how many pieces changed their place (an exchange: one to the bank, ten from it).
   * @typedef {{action: Action, place: number, pieces: number, after: State}} Step
   */

  /** @type {(start: Counts, mat: Counts) => State} the room before the first movement */
  const beginning = (start, mat) => ({
    middle: start,
    share: start.map(() => 0),
    level: Math.max(start.length - mat.length, UNITS),
    ahead: 0,
  });

  /**
   * Every step to the finished trays. With lookFirst no round is begun that cannot be finished; all other movements are
   * the same.
   * @type {(start: Counts, mat: Counts, lookFirst: boolean) => Step[]}
   */
  const deal = (start, mat, lookFirst) => {
    const room = copyOf(beginning(start, mat));
    const steps = Array.from(movements(room, mat), ([action, place, pieces]) => {
      return { action, place, pieces, after: copyOf(room) };
    });
    return lookFirst ? steps.filter(({ action }) => action !== "start-round" && action !== "take-back") : steps;
  };

  /**
   * The last state when dealing goes on by the same rule from a state that a slip may have disturbed. Pieces larger
   * than the level are dealt first, as at the beginning.
   * @type {(state: State, sharers: Counts) => State}
   */
  const dealOn = (state, sharers) => {
    const mat = sharers.slice(0, placesHeld(sharers)[0] + 1); // no larger place than somebody still stands for
    const missing = Array(Math.max(mat.length - state.middle.length, 0)).fill(0);
    const middle = [...state.middle, ...missing];
    const largest = placesHeld(middle)[0] ?? UNITS;
    const level = Math.max(state.level, largest + 1 - mat.length);
    const room = { middle, share: [...state.share, ...missing], level, ahead: 0 };
    for (const _ of movements(room, mat));
    return room;
  };

  /** @type {(state: State) => State} a state that can be changed without changing the first */
  const copyOf = ({ middle, share, level, ahead }) => ({ middle: [...middle], share: [...share], level, ahead });

  /** Change `room` movement by movement; yield action, place and number of pieces of each. */
  function* movements(room, mat) {
    yield* dealLevel(room, mat);
    while (room.level > UNITS) {
      room.level -= 1;
      yield ["next-place", room.level, 0];
      yield* dealLevel(room, mat);
    }
    const left = sum(room.middle);
    if (left) yield ["set-aside", UNITS, left];
  }

  /**
   * Deal every whole round at the room's level, then exchange the pieces that are too large for the next level. Without
   * a piece of the largest place that a round takes, nothing moves: still larger ones have been exchanged.
   */
  function* dealLevel(room, mat) {
    const level = room.level;
    const largest = level + mat.length - 1;
    const cost = room.middle.map((_, place) => mat[place - level] ?? 0);
    if (!room.middle[largest]) {
      yield ["nothing-here", level, 0];
      return;
    }
    for (let places; (places = exchangesForARound(room.middle, cost)); ) {
      for (const place of places) yield exchange(room, place);
      room.middle = less(room.middle, cost);
      room.share[level] += 1;
      yield ["deal-round", level, sum(cost)];
    }
    const dealt = beginningOfARound(room.middle, cost);
    const ahead = sum(dealt);
    if (ahead) {
      const whole = room.middle;
      Object.assign(room, { middle: less(whole, dealt), ahead });
      yield ["start-round", level, ahead];
      Object.assign(room, { middle: whole, ahead: 0 });
      yield ["take-back", level, ahead];
    }
    if (level > UNITS) {
      for (let pieces = room.middle[largest]; pieces > 0; pieces -= 1) yield exchange(room, largest);
    }
  }

  const exchange = (room, place) => {
    room.middle[place] -= 1;
    room.middle[place - 1] += 10;
    return ["exchange", place, 11];
  };

  /**
   * The places to exchange one piece of, largest first, so that a round can be dealt: as few as possible. Null if the
   * larger pieces are not enough for that.
   * @type {(middle: Counts, cost: Counts) => number[] | null}
   */
  const exchangesForARound = (middle, cost) => {
    let wanted = 0;
    const places = [];
    for (let place = 0; place < cost.length; place += 1) {
      const short = cost[place] + wanted - middle[place];
      wanted = short > 0 ? Math.ceil(short / 10) : 0;
      for (let piece = 0; piece < wanted; piece += 1) places.unshift(place + 1);
    }
    return wanted ? null : places;
  };

  /** @type {(middle: Counts, cost: Counts) => Counts} an unfinished round, dealt until one place has too few */
  const beginningOfARound = (middle, cost) => {
    const dealt = cost.map(() => 0);
    for (let place = cost.length - 1; place >= 0; place -= 1) {
      dealt[place] = Math.min(cost[place], middle[place]);
      if (dealt[place] < cost[place]) break;
    }
    return dealt;
  };

  sharing.dealing = { beginning, deal, dealOn };
}
