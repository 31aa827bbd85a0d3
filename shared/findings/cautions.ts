/** Said in the app and printed on every sheet. */
export const CAUTIONS: readonly string[] = [
  'Every figure here is an estimate for planning. None is a guarantee that work will hold or that a cutter will survive.',
  'Prove the setup at reduced feed, with a hand at the stop button, before the first full cut.',
  'Guards closed, eye protection on, hands and cloth away from turning cutters and from the bar until the spindle has stopped.',
  'Work thrown from a vise and broken cutters injure people. When in doubt, grip deeper, cut lighter, or use more vises.',
  "The machine's and the vise maker's manuals, local rules and a qualified person's judgement stand above this tool.",
];

/** The one line that fits everywhere. */
export const CAUTION_LINE =
  "Planning estimates only: prove at reduced feed. The machine's manual, local rules and a qualified person's judgement stand above this sheet.";
