import type { Plan } from '../plan';
import { buildHoistArms } from './sample-hoist-arms';
import { buildKeeperLinks } from './sample-keeper-links';

/** Sample plans by the name of their file in `assets/samples`, without its ending. */
export const SAMPLES = {
  'hoist-arms': buildHoistArms,
  'keeper-links': buildKeeperLinks,
} as const satisfies Record<string, () => Plan>;

export type SampleName = keyof typeof SAMPLES;
