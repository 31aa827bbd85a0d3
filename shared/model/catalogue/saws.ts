import type { Saw } from '../shop';
import { TYPICAL } from './sources';

/** Saws a shop starts with. A kerf has no standard value: blade thickness and set, so it is measured. */
export const SAWS: Saw[] = [
  {
    id: 'saw-band',
    name: 'Horizontal band saw, 27 × 0.9 mm band',
    kerf: 1.6,
    lengthPlus: 1,
    lengthMinus: 0,
    stub: 40,
    squaringTrim: 4,
    badEnd: 6,
    areaRateMm2PerMin: 1500,
    source: `blade thickness and set, ${TYPICAL}`,
  },
  {
    id: 'saw-cold',
    name: 'Cold circular saw, 275 × 2.5 mm blade',
    kerf: 2.5,
    lengthPlus: 0.5,
    lengthMinus: 0,
    stub: 60,
    squaringTrim: 5,
    badEnd: 6,
    areaRateMm2PerMin: 2500,
    source: `blade thickness, ${TYPICAL}`,
  },
];
