import type { Fill, Layer } from '../../../shared/drawing/marks';
import { readPalette, type Token } from '../../ui/palette';

const TOKENS = [
  '--draw-paper',
  '--draw-ink',
  '--draw-part',
  '--draw-part-ink',
  '--draw-bar',
  '--draw-cleanup',
  '--draw-allowance',
  '--draw-kerf',
  '--draw-jaw',
  '--draw-vise',
  '--draw-table',
  '--draw-cutter',
  '--draw-holder',
  '--draw-rib',
  '--draw-drop',
  '--draw-dimension',
  '--draw-guide',
  '--accent',
  '--accent-wash',
  '--ink-soft',
  '--stop',
  '--check',
] as const satisfies readonly Token[];

export type DrawToken = (typeof TOKENS)[number];

/** Every colour a view is drawn with in the theme in force. */
export interface Ink {
  readonly tokens: Readonly<Record<DrawToken, string>>;
  /** Ground of a fill; null where nothing is laid down. */
  readonly grounds: Readonly<Record<Fill, string | null>>;
  /** Hatch lines of a fill, dark on light grounds and the other way about. */
  readonly hatches: Readonly<Record<Fill, string>>;
  /** Ink that reads on a ground: the drawing's own, or the part's where that reads better. */
  getInkOn(ground: string | null): string;
  getLayerInk(layer: Layer): string;
}

const GROUNDS: Readonly<Record<Fill, DrawToken | null>> = {
  none: null,
  paper: '--draw-paper',
  ink: '--draw-dimension',
  tint: '--accent-wash',
  accent: '--accent',
  bar: '--draw-bar',
  barFace: '--draw-bar',
  cleanup: '--draw-cleanup',
  allowance: '--draw-allowance',
  part: '--draw-part',
  kerf: '--draw-kerf',
  jaw: '--draw-jaw',
  jawFace: '--draw-jaw',
  vise: '--draw-vise',
  viseFace: '--draw-vise',
  table: '--draw-table',
  tableFace: '--draw-table',
  cutter: '--draw-cutter',
  holder: '--draw-holder',
  rib: '--draw-rib',
  drop: '--draw-drop',
  seat: '--draw-jaw',
};

const DARK_HATCH = 'rgb(20 24 30 / 0.42)';
const LIGHT_HATCH = 'rgb(255 255 255 / 0.3)';

/** Reads the page's colours; to be read again when the theme changes. */
export function readInk(theme: 'light' | 'dark'): Ink {
  const tokens = readPalette(TOKENS, theme);
  const entries = Object.entries(GROUNDS) as [Fill, DrawToken | null][];
  const grounds = Object.fromEntries(entries.map(([fill, token]) => [fill, token === null ? null : tokens[token]]));
  const hatches = Object.fromEntries(
    entries.map(([fill, token]) => [fill, token !== null && isLight(tokens[token]) ? DARK_HATCH : LIGHT_HATCH]),
  );
  const partInk = tokens['--draw-part-ink'];
  const soft = mix(tokens['--draw-dimension'], tokens['--draw-part-ink'], 0.35);
  return {
    tokens,
    grounds: grounds as Record<Fill, string | null>,
    hatches: hatches as Record<Fill, string>,
    getInkOn: (ground) => (ground !== null && isLight(ground) ? partInk : tokens['--draw-ink']),
    getLayerInk(layer) {
      switch (layer) {
        case 'part':
        case 'bore':
        case 'allowance':
        case 'tab':
        case 'rib':
          return partInk;
        case 'dimension':
        case 'note':
          return tokens['--draw-dimension'];
        case 'centre':
          return soft;
        case 'section':
        case 'guide':
          return tokens['--draw-guide'];
        case 'finding':
          return tokens['--check'];
        default:
          return tokens['--draw-ink'];
      }
    },
  };
}

type Rgb = readonly [number, number, number];

/** A computed colour, `rgb(…)` or `rgba(…)`, as three numbers to 255. */
function parseColour(colour: string): Rgb {
  const [r = 0, g = 0, b = 0] = (colour.match(/[\d.]+/g) ?? []).map(Number);
  return [r, g, b];
}

/** Relative luminance above the middle between black and white ink (WCAG 2, the formula from memory). */
export function isLight(colour: string): boolean {
  const [r, g, b] = parseColour(colour).map((value) => {
    const share = value / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as unknown as Rgb;
  return 0.2126 * r + 0.7152 * g + 0.0722 * b > 0.18;
}

function mix(one: string, other: string, share: number): string {
  const a = parseColour(one);
  const b = parseColour(other);
  const [r, g, blue] = a.map((value, index) => Math.round(value + ((b[index] ?? 0) - value) * share));
  return `rgb(${r} ${g} ${blue})`;
}
