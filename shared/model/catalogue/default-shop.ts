import { getDefaultRules } from '../rules';
import type { Shop } from '../shop';
import { SHOP_VERSION } from '../versions';
import { BARS } from './bars';
import { DRILLS } from './drills';
import { END_MILLS } from './end-mills';
import { HOLDERS } from './holders';
import { JAW_SETS } from './jaw-sets';
import { KEY_SEAT_CUTTERS } from './key-seat-cutters';
import { DEFAULT_MACHINE } from './machine';
import { MATERIALS } from './materials';
import { PARALLELS } from './parallels';
import { SAWS } from './saws';
import { OTHER_SIZE_CLASSES } from './size-classes-other';
import { STEEL_SIZE_CLASSES } from './size-classes-steel';
import { SLITTING_SAWS } from './slitting-saws';
import { VISES } from './vises';

/**
 * The shop everyone starts with. The rack is empty and no bow has been measured: those are the user's own. Never changed in
 * place; an edited shop is a new object.
 */
export const defaultShop: Shop = {
  format: 'kerfgrip-shop',
  version: SHOP_VERSION,
  name: 'My shop',
  currency: 'USD',
  machine: DEFAULT_MACHINE,
  materials: MATERIALS,
  sizeClasses: [...STEEL_SIZE_CLASSES, ...OTHER_SIZE_CLASSES],
  bars: BARS,
  rack: [],
  vises: VISES,
  jawSets: JAW_SETS,
  parallels: PARALLELS,
  tools: [...END_MILLS, ...KEY_SEAT_CUTTERS, ...SLITTING_SAWS, ...DRILLS],
  holders: HOLDERS,
  saws: SAWS,
  bowMeasurements: [],
  rules: getDefaultRules(),
};
