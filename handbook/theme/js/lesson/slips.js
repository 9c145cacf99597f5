// What may be seen at the close when it is not right: the likeliest three, the others folded.
"use strict";
((sharing) => {
  const { beadsOn } = sharing.observations;
  const { tellingSlips } = sharing.diagnosis;
  const { whatIsSeen } = sharing.materialWords;
  const { symptomRow } = sharing.slipWords;
  const { element, say } = sharing.elements;

  const SHOWN = 3;
  const BY_WHAT_IS_SEEN = "when-it-goes-wrong/index.html";

  /** @type {(division: Division) => HTMLElement[]} nothing where no slip leaves a trace */
  const slips = (division) => {
    const { words } = sharing.handbook;
    const told = tellingSlips(division).map((symptom) => row(symptomRow(words, symptom, division)));
    if (!told.length) return [];
    const right = { trays: beadsOn(division.trays(division.end)), left: division.remainder };
    const [first, others] = [told.slice(0, SHOWN), told.slice(SHOWN)];
    const lookItUp = element("a", { href: BY_WHAT_IS_SEEN }, say("slips.look-it-up"));
    return [
      element(
        "section.not-right",
        {},
        element("h2", { id: "if-it-does-not-come-out" }, say("slips.heading")),
        element("p", {}, say("slips.right", { seen: whatIsSeen(words, right, division.ribbons) })),
        element("ul.symptoms", {}, ...first),
        ...(others.length ? [folded(others)] : []),
        element("p", {}, say("slips.something-else"), " ", lookItUp, "."),
      ),
    ];
  };

  const folded = (others) =>
    element(
      "details",
      {},
      element("summary", {}, say("slips.more", { count: others.length })),
      element("ul.symptoms", {}, ...others),
    );

  const row = ({ seen, happened, look, mends }) =>
    element(
      "li",
      {},
      element("h3", {}, seen),
      element(
        "dl",
        {},
        ...named("slips.what-happened", happened),
        ...named("slips.where-to-look", [look]),
        ...named("slips.what-puts-it-right", mends),
      ),
    );

  const named = (key, sentences) => [
    element("dt", {}, say(key)),
    ...sentences.map((sentence) => element("dd", {}, sentence)),
  ];

  sharing.lessonSlips = { slips };
})((globalThis.sharing ??= {}));
