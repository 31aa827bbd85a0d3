import { inchesToMm } from '../../units/exact';
import { buildHole, buildPart, buildStation } from '../build-part';
import { buildEmptyPlan, getEveryFace } from '../defaults';
import type { Part, Plan, Station } from '../plan';
import { collectLibrary } from '../plan-library';
import { defaultShop } from './default-shop';

type InchStation = readonly [kind: Station['kind'], from: number, to: number, width: number, widthEnd?: number];

function getStations(rows: readonly InchStation[]): Station[] {
  return rows.map(([kind, from, to, width, widthEnd]) =>
    buildStation({
      kind,
      from: inchesToMm(from),
      to: inchesToMm(to),
      width: inchesToMm(width),
      widthEnd: inchesToMm(widthEnd ?? width),
    }),
  );
}

const PAWL_ARM: Part = buildPart({
  id: 'part-1',
  name: 'Pawl arm',
  number: 'SG-11',
  quantity: 6,
  length: inchesToMm(7.25),
  height: inchesToMm(1.25),
  thickness: inchesToMm(0.5),
  stations: getStations([
    ['boss', 0, 1, 0.5],
    ['shank', 1, 5.5, 0.375],
    ['taper', 5.5, 6.25, 0.375, 0.5],
    ['boss', 6.25, 7.25, 0.5],
  ]),
  holes: [buildHole({ id: 'hole-1', x: inchesToMm(0.5), diameter: inchesToMm(0.25), beforeCutOff: false })],
  note: 'Pivot hole reamed and pawl end dressed to the ratchet after release.',
});

const HOIST_LEVER: Part = buildPart({
  id: 'part-2',
  name: 'Hoist lever',
  number: 'SG-12',
  quantity: 2,
  length: inchesToMm(11.5),
  height: inchesToMm(1.375),
  thickness: inchesToMm(0.625),
  stations: getStations([
    ['boss', 0, 1.5, 0.625],
    ['shank', 1.5, 10, 0.4375],
    ['boss', 10, 11.5, 0.625],
  ]),
  holes: [
    buildHole({ id: 'hole-1', x: inchesToMm(0.75), diameter: inchesToMm(0.375) }),
    buildHole({ id: 'hole-2', x: inchesToMm(10.75), diameter: inchesToMm(0.3125) }),
  ],
});

/**
 * Six pawl arms and two levers of a watermill's sluice-gate hoist. The levers are 1.375 in high: a 2 in bar leaves about 0.3 in
 * of grip, the 2-1/4 and 2-1/2 in bars leave more and cost more.
 */
export function buildHoistArms(): Plan {
  const empty = buildEmptyPlan({ units: 'in', date: '', author: 'Mill workshop', shop: defaultShop });
  const plan: Plan = {
    ...empty,
    name: 'Sluice-gate hoist: pawl arms and levers',
    number: 'SG-10',
    revision: 'A',
    notes:
      'Replacement arms for the hoist that lifts the sluice gate of a watermill. The bar prices are invented for this sample.',
    parts: [PAWL_ARM, HOIST_LEVER],
    stock: { ...empty.stock, materialId: 'material-4140-annealed' },
    laterOperation: {
      ...getEveryFace('draw-filed to size after release'),
      bottom: 'milled flat after release',
      top: 'milled flat after release',
    },
    partsPerBlank: { pinned: 2 },
    holding: {
      ...empty.holding,
      viseId: 'vise-6in',
      jawSetId: 'jaws-6in-soft',
      viseCount: { pinned: 3 },
      clamp: { kind: 'torque', handleTorqueNm: 75, nutFactor: null },
      faceToFixedJaw: 'straighter wide face, mill marks to the right',
      alignmentNote: 'fixed jaws indicated along X to 0.0005 in over each jaw',
    },
    release: {
      ...empty.release,
      cutterId: { pinned: 'tool-key-long-1125x0188' },
      dressNote: 'rib snapped by hand or with a soft mallet, stub filed flush',
    },
    marking: {
      text: 'part number and piece',
      place: 'shank, side away from the fixed jaw',
      method: 'hand stamps',
      when: 'afterFinishing',
    },
  };
  return { ...plan, library: collectLibrary(plan, defaultShop) };
}
