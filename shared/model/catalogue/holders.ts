import { inchesToMm } from '../../units/exact';
import type { Holder } from '../shop';
import { TYPICAL } from './sources';

/** Holders a shop starts with. Collet chucks by the collet size of ISO 15488. */
export const HOLDERS: Holder[] = [
  {
    id: 'holder-collet-16',
    name: 'Collet chuck, collet size 16',
    noseDiameter: 28,
    noseLength: 30,
    bodyDiameter: 44,
    source: TYPICAL,
  },
  {
    id: 'holder-collet-25',
    name: 'Collet chuck, collet size 25',
    noseDiameter: 42,
    noseLength: 40,
    bodyDiameter: 50,
    source: TYPICAL,
  },
  {
    id: 'holder-collet-32',
    name: 'Collet chuck, collet size 32',
    noseDiameter: 50,
    noseLength: 45,
    bodyDiameter: 63,
    source: TYPICAL,
  },
  {
    id: 'holder-end-mill-0500',
    name: 'End mill holder, 1/2 in bore',
    noseDiameter: inchesToMm(1.375),
    noseLength: inchesToMm(1.5),
    bodyDiameter: inchesToMm(1.75),
    source: TYPICAL,
  },
  {
    id: 'holder-slim',
    name: 'Slim collet chuck',
    noseDiameter: 20,
    noseLength: 60,
    bodyDiameter: 44,
    source: TYPICAL,
  },
];
