import type { Fill } from './marks';

/** One set of parallel hatch lines, in mm of paper. */
export interface HatchLines {
  /** Degrees counter-clockwise from X. */
  angleDeg: number;
  spacing: number;
  /** Stroke and gap along the line; empty for a full line. Every other line starts half a period on. */
  dashes: readonly number[];
}

export interface FillStyle {
  /** Ground colour on paper as `#rrggbb`; null for none. The hatch alone tells the fills apart in black and white. */
  ground: string | null;
  hatch: readonly HatchLines[];
}

const FULL: readonly number[] = [];
const none = (ground: string | null): FillStyle => ({ ground, hatch: [] });
const lines = (ground: string | null, angleDeg: number, spacing: number, dashes = FULL): FillStyle => ({
  ground,
  hatch: [{ angleDeg, spacing, dashes }],
});

/** Every fill as the sinks draw it. Cut metal carries 45° lines (ISO 128-3 practice), what is removed is broken or dotted. */
export const FILL_STYLES: Readonly<Record<Fill, FillStyle>> = {
  none: none(null),
  paper: none('#ffffff'),
  ink: none('#1b2430'),
  tint: none('#f2efe6'),
  accent: none('#1f4f9e'),
  bar: lines('#e2cfa0', 45, 2.2),
  barFace: none('#e2cfa0'),
  cleanup: lines('#f4ead2', 135, 1.5, [1.2, 0.9]),
  allowance: { ground: '#f7ecc9', hatch: [{ angleDeg: 45, spacing: 0.7, dashes: [0.15, 0.85] }] },
  part: none('#fdf8e8'),
  kerf: lines('#ffffff', 90, 0.9),
  jaw: lines('#dfe3e7', 135, 2.6),
  jawFace: none('#e6eaed'),
  vise: lines('#c3c9cf', 45, 3.4),
  viseFace: none('#c9cfd5'),
  table: lines('#b3bbc3', 0, 1.6),
  tableFace: none('#bcc4cb'),
  cutter: {
    ground: '#cfd6de',
    hatch: [
      { angleDeg: 45, spacing: 1.7, dashes: FULL },
      { angleDeg: 135, spacing: 1.7, dashes: FULL },
    ],
  },
  holder: lines('#8d98a4', 135, 1.3),
  rib: none('#1f4f9e'),
  drop: lines('#f6f1e4', 135, 2.6, [2.2, 1.2]),
  seat: {
    ground: '#e9ecef',
    hatch: [
      { angleDeg: 0, spacing: 1.5, dashes: FULL },
      { angleDeg: 90, spacing: 1.5, dashes: FULL },
    ],
  },
};
