import type { ParallelPair } from '../model/shop';
import type { ParallelRow } from './results';
import { SAME_LENGTH } from './rounding';

/** What parallels are asked to do. Lengths in mm. */
export interface ParallelQuestion {
  /** Jaw tops above the vise bed. */
  jawHeight: number;
  /** Least and most grip that will do: at least what the jaw asks, at most what is left under the stack. */
  leastGrip: number;
  mostGrip: number;
  /** Thinnest bar, and the room kept between two parallels. */
  thickness: number;
  fingerRoom: number;
}

/** A neighbour of the height wanted: what it is and the grip it would give. */
export interface NearParallel {
  parallelId: string;
  height: number;
  grip: number;
}

/** Owned parallels against the question, with the nearest ones where none will do. */
export interface ParallelAnswer {
  rows: ParallelRow[];
  /** The row that fits with the most grip; null when none fits. */
  best: ParallelRow | null;
  nextLower: NearParallel | null;
  nextHigher: NearParallel | null;
  /** Shim on the next lower pair that brings the grip into range; null when that pair serves or there is none. */
  shim: { parallelId: string; least: number; most: number } | null;
}

/**
 * Owned parallels for a grip: height = jaw height - grip, two of them narrower than the bar with room
 * between, or one alone.
 *
 * @param owned the drawer; entries without a usable size are left out
 * @param wantedGrip the grip that `nextLower` and `nextHigher` stand either side of; the middle of the range when absent
 */
export function computeParallels(
  question: ParallelQuestion,
  owned: readonly ParallelPair[],
  wantedGrip = (question.leastGrip + question.mostGrip) / 2,
): ParallelAnswer {
  const rows = owned
    .filter(({ height, thickness }) => height > 0 && thickness > 0)
    .map((pair) => getRow(question, pair))
    .sort((a, b) => a.height - b.height);
  const wantedHeight = question.jawHeight - wantedGrip;
  const usable = rows.filter((row) => row.grip > 0 && fitsAcross(question, row));
  const lower = usable.findLast((row) => row.height <= wantedHeight + SAME_LENGTH) ?? null;
  const higher = usable.find((row) => row.height > wantedHeight + SAME_LENGTH) ?? null;
  return {
    rows,
    best: rows.find((row) => row.fits) ?? null,
    nextLower: lower === null ? null : getNear(lower),
    nextHigher: higher === null ? null : getNear(higher),
    shim: lower === null ? null : getShim(question, lower),
  };
}

function getRow(question: ParallelQuestion, pair: ParallelPair): ParallelRow {
  const count = pair.count >= 2 && fitsTwo(question, pair.thickness) ? 2 : 1;
  const row: ParallelRow = {
    parallelId: pair.id,
    height: pair.height,
    thickness: pair.thickness,
    count,
    grip: question.jawHeight - pair.height,
    fits: false,
    reason: '',
  };
  const reason = getReason(question, row, pair.count);
  return { ...row, fits: reason === '', reason };
}

function getReason(question: ParallelQuestion, row: ParallelRow, owned: number): string {
  if (row.grip <= SAME_LENGTH) return 'stands above the jaws';
  if (!fitsAcross(question, row)) {
    return owned >= 2 ? 'wider than the bar, even one alone' : 'wider than the bar';
  }
  if (row.grip > question.mostGrip + SAME_LENGTH) return 'the bar would sit too deep: the cut-off would meet the jaws';
  if (row.grip < question.leastGrip - SAME_LENGTH) return 'too little grip';
  return '';
}

function fitsTwo(question: ParallelQuestion, thickness: number): boolean {
  return 2 * thickness + question.fingerRoom <= question.thickness + SAME_LENGTH;
}

function fitsAcross(question: ParallelQuestion, row: Pick<ParallelRow, 'thickness' | 'count'>): boolean {
  return row.count === 2 ? fitsTwo(question, row.thickness) : row.thickness <= question.thickness + SAME_LENGTH;
}

function getNear(row: ParallelRow): NearParallel {
  return { parallelId: row.parallelId, height: row.height, grip: row.grip };
}

function getShim(question: ParallelQuestion, row: ParallelRow): ParallelAnswer['shim'] {
  const least = row.grip - question.mostGrip;
  const most = row.grip - question.leastGrip;
  return least <= SAME_LENGTH || most <= 0 ? null : { parallelId: row.parallelId, least, most };
}
