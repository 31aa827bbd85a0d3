import bidiFactory from 'bidi-js';

/** Letters that run in one direction, as they stand on paper from left to right. */
export interface VisualRun {
  /** In the order of reading; a run from right to left begins at its right end. */
  text: string;
  isRightToLeft: boolean;
}

interface LevelRun {
  start: number;
  end: number;
  level: number;
}

/** Blocks of scripts that run from right to left, and the signs that set a direction. */
const RIGHT_TO_LEFT =
  /[\u0590-\u08ff\u200f\u202b\u202e\u2067\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;

const bidi = bidiFactory();

/**
 * A line of text in runs of one direction, from left to right as they are set. The line as a whole runs from left to
 * right, as the sheet does; brackets in a run from right to left are turned.
 *
 * Source: Unicode Standard Annex #9, Unicode Bidirectional Algorithm, rules L2 and L4.
 */
export function getVisualRuns(text: string): VisualRun[] {
  if (!RIGHT_TO_LEFT.test(text)) return [{ text, isRightToLeft: false }];
  const { levels } = bidi.getEmbeddingLevels(text, 'ltr');
  const mirrored = bidi.getMirroredCharactersMap(text, levels);
  return reorder(getLevelRuns(levels)).map(({ start, end, level }) => ({
    text: Array.from({ length: end - start }, (_unused, at) => mirrored.get(start + at) ?? text[start + at]).join(''),
    isRightToLeft: level % 2 === 1,
  }));
}

function getLevelRuns(levels: Uint8Array): LevelRun[] {
  const runs: LevelRun[] = [];
  for (const [index, level] of levels.entries()) {
    const last = runs.at(-1);
    if (last?.level === level) last.end = index + 1;
    else runs.push({ start: index, end: index + 1, level });
  }
  return runs;
}

/** Rule L2: from the highest level down to the lowest odd one, runs at that level or higher change places. */
function reorder(runs: readonly LevelRun[]): LevelRun[] {
  let ordered = [...runs];
  const highest = Math.max(...runs.map(({ level }) => level));
  for (let level = highest; level >= 1; level -= 1) {
    const next: LevelRun[] = [];
    let turned: LevelRun[] = [];
    for (const run of ordered) {
      if (run.level >= level) {
        turned.unshift(run);
      } else {
        next.push(...turned, run);
        turned = [];
      }
    }
    ordered = [...next, ...turned];
  }
  return ordered;
}
