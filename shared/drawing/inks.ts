import type { Mark } from './marks';

/** Colours of lines and letters on paper. */
const INK = '#1b2430';
const LAYER_INK: Partial<Record<Mark['layer'], string>> = {
  section: '#1f4f9e',
  hidden: '#3d4651',
  centre: '#3d4651',
};

export const HATCH_INK = '#5c6672';

/** Width of a hatch line, mm of paper: thinner than any pen, so that outlines stand out. */
export const HATCH_WIDTH = 0.13;

/** Colour of a mark's lines or letters on paper, `#rrggbb`. */
export function getInk(layer: Mark['layer']): string {
  return LAYER_INK[layer] ?? INK;
}
