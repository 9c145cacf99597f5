// What can be asked of a page from outside: share, choose and diagnose. Each answers with the object that the command
// of the same name writes with --json, and refuses what that refuses with an Error of the same sentence.
"use strict";
{
  const { MOST_CHILDREN } = sharing.limits;
  const { placeName, placesHeld, named, TENS, HUNDREDS, THOUSANDS } = sharing.places;
  const { workOut } = sharing.division;
  const { numbers, bestFirst } = sharing.choosingNumbers;
  const { diagnoser } = sharing.diagnosis;
  const { written } = sharing.phrases;
  const { explain } = sharing.slipWords;

  const DIVIDEND_LIMIT = 10 ** 15;
  const PLAIN_LIMIT = 9_999;
  const RIBBONS_LIMIT = 999_999;
  const FEW = 12;
  const STANDS_FOR = [1, 10, 100, 1000];
  const SENDING = { thousands: THOUSANDS, hundreds: HUNDREDS, tens: TENS };

  const refuse = (what, problem) => {
    throw new Error(`Invalid value for '${what}': ${problem}`);
  };

  /** A whole number in range, given as a number or in digits; `upTo` says `most` where that depends. */
  const wholeNumber = (what, given, least, most, upTo) => {
    if (given === undefined) throw new Error(`Missing argument '${what}'.`);
    const number = typeof given !== "object" && /^[0-9]{1,20}$/.test(String(given)) ? Number(given) : -1;
    if (number >= least && number <= most) return number;
    const shown = given === "" ? "an empty value" : given;
    const to = upTo ?? written(most, { mark: ",", in_four_digits: true }); // as in commands
    return refuse(what, `${shown} is not a whole number from ${least} to ${to}; write digits only.`);
  };

  const refuseUnlessFlags = (flags) => {
    for (const [what, given] of Object.entries(flags)) {
      if (typeof given !== "boolean") refuse(what, `${given} is neither true nor false.`);
    }
  };

  const refuseUnlessList = (what, given) => {
    if (!Array.isArray(given)) refuse(what, `${given} is not a list.`);
  };

  /**
   * @param {number | string} dividend 0 to 10^15
   * @param {number | string} divisor 1 to 9,999; with ribbons to 999,999
   * @param {{ribbons?: boolean, look_first?: boolean}} [how]
   */
  sharing.share = (dividend, divisor, { ribbons = false, look_first = false } = {}) => {
    const number = wholeNumber("DIVIDEND", dividend, 0, DIVIDEND_LIMIT);
    const among = wholeNumber("DIVISOR", divisor, 1, RIBBONS_LIMIT, "9,999 (with --ribbons to 999,999)");
    if (among > PLAIN_LIMIT && !ribbons) {
      refuse("DIVISOR", `${divisor} is more than 9,999; with --ribbons it may go to 999,999.`);
    }
    refuseUnlessFlags({ ribbons, look_first });
    const division = workOut(number, among, { ribbons, lookFirst: look_first });
    return {
      schema: 1,
      dividend: number,
      divisor: among,
      ribbons,
      ...(look_first ? { look_first } : {}),
      quotient: division.quotient,
      remainder: division.remainder,
      stages: division.stages.map((stage) => ({
        place: placeName(stage.level),
        start: named(stage.start),
        rounds: stage.rounds,
        exchanged: Object.fromEntries(
          placesHeld(stage.exchanged).map((place) => [placeName(place), stage.exchanged[place]]),
        ),
        end: named(stage.end),
      })),
      steps: division.steps.map(({ action, place, pieces, after }) => ({
        action,
        place: placeName(place),
        pieces,
        middle: named(after.middle),
        trays: division.trays(after).map((tray) => ({ ...tray, holds: named(tray.holds) })),
        bank: named(division.bank(after)),
        to_share: division.toShare(after),
      })),
      pieces_needed: named(division.piecesNeeded),
      exchanges: division.exchanges,
      handlings: division.handlings,
    };
  };

  /**
   * @param {number | string} divisor 1 to 12
   * @param {{exchange_from?: string[] | null, remainder?: string, zeros?: string, digits?: number | string,
   *   within_shelf?: boolean, shelf?: Partial<Shelf> | null}} [filters] as in the answer; shelf: where it is not the
   *   school's
   * @param {{all?: boolean}} [how] all: every number, smallest first
   */
  sharing.choose = (divisor, filters = {}, { all = false } = {}) => {
    const among = wholeNumber("DIVISOR", divisor, 1, MOST_CHILDREN);
    const { exchange_from = null, within_shelf = false, shelf = null } = filters;
    refuseUnlessFlags({ within_shelf });
    if (exchange_from !== null) refuseUnlessList("exchange_from", exchange_from);
    for (const name of exchange_from ?? []) {
      if (Object.hasOwn(SENDING, name)) continue;
      const names = Object.keys(SENDING).join(", ");
      const right = "write none alone, or places with commas between them.";
      refuse("--exchange-from", `'${name}' is not one of ${names}; ${right}`);
    }
    const choice = {
      exchangeFrom: exchange_from?.map((name) => SENDING[name]) ?? null,
      remainder: oneOf("--remainder", filters.remainder ?? "any", ["none", "some", "any"]),
      zeros: oneOf("--zeros", filters.zeros ?? "any", ["none", "dividend", "quotient", "any"]),
      digits: wholeNumber("--digits", filters.digits ?? 4, 1, 4),
      shelf: within_shelf ? shelfWith(shelf ?? {}) : null,
    };
    const found = numbers(among, choice);
    const { remainder, zeros, digits } = choice;
    const inOrder = exchange_from && Object.keys(SENDING).filter((name) => exchange_from.includes(name));
    return {
      divisor: among,
      filters: { exchange_from: inOrder, remainder, zeros, digits, within_shelf },
      count: found.length,
      numbers: all ? found : bestFirst(among, found, FEW),
    };
  };

  /** The school's own shelf, but for the keys that are given. */
  const shelfWith = (given) => {
    const own = sharing.handbook.shelf;
    for (const [key, many] of Object.entries(given)) {
      wholeNumber(`shelf.${oneOf("shelf", key, Object.keys(own))}`, many, 0, DIVIDEND_LIMIT);
    }
    return { ...own, ...given };
  };

  const oneOf = (what, given, values) =>
    values.includes(given) ? given : refuse(what, `'${given}' is not one of '${values.join("', '")}'.`);

  /**
   * @param {number | string} dividend 0 to 10^15
   * @param {number | string} divisor 1 to 9,999
   * @param {{ribbons?: boolean, seen: (number | string | {stands_for: number, value: number | string})[],
   *   left?: number | string | null}} room what each tray holds, and what is left over where it was counted
   */
  sharing.diagnose = (dividend, divisor, { ribbons = false, seen, left = null } = {}) => {
    const number = wholeNumber("DIVIDEND", dividend, 0, DIVIDEND_LIMIT);
    const among = wholeNumber("DIVISOR", divisor, 1, PLAIN_LIMIT);
    refuseUnlessFlags({ ribbons });
    if (seen === undefined) throw new Error("Missing option '--seen'.");
    refuseUnlessList("--seen", seen);
    if (!seen.length) throw new Error("the number of trays seen is 0: it must be 1 or more");
    const trays = seen.map(trayOf);
    const counted = left === null ? null : wholeNumber("--left", left, 0, DIVIDEND_LIMIT);
    for (const { stands_for } of trays) {
      if (stands_for === 1 || ribbons) continue;
      refuse("--seen", `"${stands_for}:" is for ribbons; add --ribbons, or write the tray without it.`);
    }
    return diagnosisAsData(diagnoser(number, among, ribbons)(trays, counted));
  };

  /** @type {(diagnosis: Diagnosis) => Object} as the command writes it */
  const diagnosisAsData = ({ division, ribbons, consistent, causes }) => ({
    dividend: division.dividend,
    divisor: division.divisor,
    ribbons,
    consistent,
    causes: causes.map((cause) => ({
      slip: cause.slip,
      place: cause.place === null ? "every place" : placeName(cause.place),
      explanation: Object.values(explain(cause, division, causes)).join(" "),
      repair: repairAsData(cause.repair, ribbons),
    })),
  });

  /** @type {(repair: Repair, ribbons: boolean) => Object[]} */
  const repairAsData = (repair, ribbons) => repair.map((step) => stepAsData(step, ribbons));

  /**
   * One step of a repair as the command writes it. With ribbons trays also say what they stand for; from trays to
   * trays, `reads` is said of those that give, `to_reads` of those that take, as many unless `to_trays` is said too.
   * @type {(step: Object, ribbons: boolean) => Object}
   */
  const stepAsData = (step, ribbons) => {
    if ("again" in step) return { again_from: placeName(step.again) };
    if ("shareOn" in step) return { share_on_from: placeName(step.shareOn) };
    if ("changePlaces" in step) return { change_places: step.changePlaces };
    if ("refill" in step) return { refill_to: step.refill, ...traysAsData(step.trays, ribbons) };
    if ("exchange" in step) {
      const exchange = { exchange: step.exchange, place: placeName(step.place), at: step.at };
      return { ...exchange, ...traysAsData(step.trays, ribbons) };
    }
    const { pieces, giving, taking } = step;
    const movement = { pieces, place: placeName(step.place), from: step.source, to: step.target };
    if (!giving || !taking) return { ...movement, ...traysAsData(giving ?? taking, ribbons) };
    const to = { to_reads: taking.value };
    if (giving.sharers !== taking.sharers) to.to_trays = taking.sharers;
    if (ribbons) to.to_stands_for = taking.stands_for;
    return { ...movement, ...traysAsData(giving, ribbons), ...to };
  };

  const traysAsData = (alike, ribbons) => {
    if (!alike) return {};
    const { value: reads, sharers: trays, stands_for } = alike;
    return ribbons ? { reads, trays, stands_for } : { reads, trays };
  };

  sharing.commands = { diagnosisAsData, repairAsData };

  const trayOf = (tray) => {
    const { stands_for = 1, value = tray } = tray ?? {};
    if (!STANDS_FOR.includes(Number(stands_for))) {
      refuse("--seen", `"${stands_for}:" is not what a tray can stand for: ${STANDS_FOR.join(", ")}.`);
    }
    return { stands_for: Number(stands_for), value: wholeNumber("--seen", value, 0, DIVIDEND_LIMIT) };
  };
}
