import { buildHole, buildPart, buildStation } from '../build-part';
import { buildEmptyPlan, getEveryFace } from '../defaults';
import type { Part, Plan } from '../plan';
import { collectLibrary } from '../plan-library';
import { defaultShop } from './default-shop';

const KEEPER_LINK: Part = buildPart({
  id: 'part-1',
  name: 'Keeper link',
  number: 'SG-21',
  quantity: 24,
  length: 95,
  height: 20,
  thickness: 10,
  stations: [
    buildStation({ kind: 'boss', from: 0, to: 22, width: 10 }),
    buildStation({ kind: 'shank', from: 22, to: 73, width: 7 }),
    buildStation({ kind: 'boss', from: 73, to: 95, width: 10 }),
  ],
  holes: [
    buildHole({ id: 'hole-1', axis: 'y', x: 11, z: 10, diameter: 8, beforeCutOff: false }),
    buildHole({ id: 'hole-2', axis: 'y', x: 84, z: 10, diameter: 8, beforeCutOff: false }),
  ],
});

/**
 * Keeper links of a watermill's sluice-gate hoist, four to a blank. A 30 mm bar leaves less than 6 mm of grip, 35 and 40 mm
 * bars leave more and cost more.
 */
export function buildKeeperLinks(): Plan {
  const empty = buildEmptyPlan({ units: 'mm', date: '', author: 'Mill workshop', shop: defaultShop });
  const profiling = { toolId: 'tool-em-carbide-aluminium-12mm', cuttingSpeedMPerMin: 200 };
  const plan: Plan = {
    ...empty,
    name: 'Sluice-gate hoist: keeper links',
    number: 'SG-20',
    revision: 'A',
    notes: 'Links that keep the lifting chain on its sprocket. The bar prices are invented for this sample.',
    parts: [KEEPER_LINK],
    stock: { ...empty.stock, materialId: 'material-6082-t6' },
    allowance: { ...getEveryFace(0.5), top: 0.25, bottom: 0.25, fixedSide: 1, movingSide: 1 },
    laterOperation: { ...getEveryFace('milled to size after release'), leftEnd: 'filed', rightEnd: 'filed' },
    cleanup: { ...empty.cleanup, top: 0.5 },
    partsPerBlank: { pinned: 4 },
    holding: {
      ...empty.holding,
      viseId: 'vise-125mm',
      jawSetId: 'jaws-125mm-soft',
      clamp: { kind: 'torque', handleTorqueNm: 40, nutFactor: null },
      faceToFixedJaw: 'either wide face',
      alignmentNote: 'fixed jaws indicated along X to 0.01 mm over each jaw',
    },
    release: {
      ...empty.release,
      cutterId: { pinned: 'tool-key-long-20x2mm' },
      dressNote: 'rib snapped by hand, stub filed flush',
    },
    cuts: empty.cuts.map((cut) =>
      cut.kind === 'cutOff' ? { ...cut, cuttingSpeedMPerMin: 120 } : { ...cut, ...profiling },
    ),
    marking: { text: 'bag label', place: 'bag', method: 'paint pen', when: 'tag' },
  };
  return { ...plan, library: collectLibrary(plan, defaultShop) };
}
