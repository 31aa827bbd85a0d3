import type { HatchLines } from '../../../shared/drawing/fills';

/** One stroke of a hatch in a square tile that repeats, in px of the tile, Y down. */
export interface TileStroke {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

export interface HatchTile {
  /** Side of the tile, whole px. */
  readonly side: number;
  readonly strokes: readonly TileStroke[];
}

const MOST_REPEATS = 6;

/**
 * A hatch as a tile that repeats without a seam, so that an area is hatched by one pattern fill instead of a thousand
 * strokes. Spacing and dashes are stretched by a few percent to close the tile.
 *
 * @param lines hatch in mm of paper; the angle must be a multiple of 45°
 * @param pxPerPaperMm px of the screen to a mm of paper
 */
export function computeHatchTile(lines: HatchLines, pxPerPaperMm: number): HatchTile {
  const period = lines.dashes.reduce((sum, length) => sum + length, 0);
  const isSlanted = Math.round(lines.angleDeg / 45) % 2 !== 0;
  const { rows, repeats } = getRepeats(lines.spacing, period);
  const across = rows * lines.spacing * (isSlanted ? Math.SQRT2 : 1);
  const side = Math.max(2, Math.round(across * pxPerPaperMm));
  // Measured along and across the lines, where the tile's own period is shorter by the slant.
  const square = isSlanted ? side / Math.SQRT2 : side;
  const spacing = square / rows;
  const dash = period > 0 ? square / repeats : 0;
  const strokes: TileStroke[] = [];
  for (let row = -2 * rows; row <= 2 * rows; row += 1) {
    for (const [from, to] of getDashes(lines.dashes, period, dash, row, square)) {
      strokes.push(turnStroke(from, to, row * spacing, lines.angleDeg));
    }
  }
  return { side, strokes };
}

/** Whole numbers of rows and of dash periods that make a square, with the dashes stretched least. */
function getRepeats(spacing: number, period: number): { rows: number; repeats: number } {
  // Every other row starts half a period on, so dashed tiles have even rows.
  if (period <= 0) return { rows: 1, repeats: 1 };
  let best = { rows: 2, repeats: 1, error: Number.POSITIVE_INFINITY };
  for (let rows = 2; rows <= MOST_REPEATS; rows += 2) {
    const repeats = Math.max(1, Math.round((rows * spacing) / period));
    const error = Math.abs((rows * spacing) / (repeats * period) - 1) + rows * 0.01;
    if (error < best.error) best = { rows, repeats, error };
  }
  return best;
}

function getDashes(
  dashes: readonly number[],
  period: number,
  dash: number,
  row: number,
  square: number,
): [number, number][] {
  if (period <= 0) return [[-2 * square, 2 * square]];
  const stroke = ((dashes[0] ?? 0) / period) * dash;
  const shift = row % 2 === 0 ? 0 : dash / 2;
  const pieces: [number, number][] = [];
  for (let at = -2 * square + shift; at < 2 * square; at += dash) pieces.push([at, at + stroke]);
  return pieces;
}

/** Turns a stroke that runs along X at a height by an angle counter-clockwise as seen, Y down. */
function turnStroke(from: number, to: number, height: number, angleDeg: number): TileStroke {
  const angleRad = (-angleDeg * Math.PI) / 180;
  const cos = Math.cos(angleRad);
  const sin = Math.sin(angleRad);
  return {
    x1: from * cos - height * sin,
    y1: from * sin + height * cos,
    x2: to * cos - height * sin,
    y2: to * sin + height * cos,
  };
}
