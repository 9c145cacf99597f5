// What may be seen at the close when it is not right: the likeliest three, the others folded.
"use strict";
{
  const { rightObservation, tellingSlips } = sharing.diagnosis;
  const { whatIsSeen } = sharing.materialWords;
  const { symptomRow, firstOnPaper } = sharing.slipWords;
  const { element, say } = sharing.elements;

  const SHOWN = 3;
  const BY_WHAT_IS_SEEN = "when-it-goes-wrong/index.html";
  const CHILD_LEAVES = "when-it-goes-wrong/child-leaves-or-joins.html";

  /**
   * Put them under a lesson, one at each step; nothing where no slip leaves a trace that today's shelf could show.
   * @type {(division: Division, shelf: Shelf, lesson: HTMLElement) => Generator<void>}
   */
  function* slips(division, shelf, lesson) {
    const [first, others] = [element("ul.symptoms"), element("ul.symptoms")];
    const more = element("summary");
    const folded = element("details", more, others);
    const lookItUp = element("a", { href: BY_WHAT_IS_SEEN }, say("slips.look-it-up"));
    const childLeaves = element("a", { href: CHILD_LEAVES }, say("slips.child-leaves"));
    const onScreen = element("span.screen-only", childLeaves, ".");
    const last = element("p", say("slips.something-else"), " ", lookItUp, ". ", onScreen);
    const section = element(
      "section.not-right",
      element("h2", { id: "if-it-does-not-come-out" }, say("slips.heading")),
      element("p", say("slips.right", { seen: whatIsSeen(rightObservation(division), division.ribbons) })),
      first,
      last,
    );
    for (const symptom of tellingSlips(division, shelf)) {
      const isLikely = first.childElementCount < SHOWN;
      (isLikely ? first : others).append(row(symptomRow(symptom, division), firstOnPaper(symptom)));
      if (!section.isConnected) lesson.append(section);
      if (!isLikely) {
        if (!folded.isConnected) last.before(folded);
        more.textContent = say("slips.more", { count: others.childElementCount });
      }
      yield;
    }
  }

  const row = ({ seen, happened, look, mends }, first) => {
    const putsRight = named("slips.what-puts-it-right", mends);
    if (first) putsRight[1].dataset.first = first; // the style sheet for paper writes it there
    return element(
      "li",
      element("h3", seen),
      element(
        "dl",
        ...named("slips.what-happened", happened),
        ...named("slips.where-to-look", [look]),
        ...putsRight,
      ),
    );
  };

  const named = (key, sentences) => [
    element("dt", say(key)),
    ...sentences.map((sentence) => element("dd", sentence)),
  ];

  sharing.lessonSlips = { slips };
}
