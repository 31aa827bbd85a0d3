import type { Decided, Figure, Why } from '../../../shared/engine/figure';
import type { BlankResult, RibResult, StackResult } from '../../../shared/engine/results';
import type { Evaluation } from '../../../shared/evaluate';
import type { PerFace } from '../../../shared/model/faces';
import type { Part, Plan } from '../../../shared/model/plan';
import { getDefaultRules } from '../../../shared/model/rules';
import type { Shop } from '../../../shared/model/shop';
import type { QuantityKind } from '../../../shared/units/quantity';

/** A plan, shop and evaluation set down by hand, so that drawings are tested on known numbers whatever the engine says. */
export interface DrawingFixture {
  plan: Plan;
  shop: Shop;
  evaluation: Evaluation;
}

const inch = 25.4;
const why: Why = { rule: 'Set down by hand', formula: 'x', inputs: [], source: 'test data' };

const figure = (value: number, kind: QuantityKind = 'length'): Figure => ({ value, kind, why });
const decided = <T>(value: T, pinned = false): Decided<T> => ({ value, pinned, auto: value, why });
const perFace = (value: number): PerFace<number> => ({
  top: value,
  bottom: value,
  fixedSide: value,
  movingSide: value,
  leftEnd: value,
  rightEnd: value,
});
const limits = (nominal: number, minus = 0) => ({ nominal, least: nominal - minus, most: nominal });

const shop: Shop = {
  format: 'kerfgrip-shop',
  version: 1,
  name: 'Watermill workshop',
  currency: 'USD',
  machine: {
    name: 'Knee mill',
    tableLength: 1066,
    tableWidth: 228,
    travelX: 660,
    travelY: 300,
    spindleToTable: 450,
    spindlePowerKw: 1.5,
    maxSpindleRpm: 4000,
    tSlotPitch: 63.5,
    source: 'measured',
  },
  materials: [
    {
      id: '4140',
      name: '4140',
      designation: '42CrMo4 / 4140, annealed',
      metalGroup: 'alloySteel',
      densityKgM3: 7850,
      youngsModulusMPa: 207000,
      yieldStrengthMPa: 415,
      tensileStrengthMPa: 655,
      kienzle: { family: 'vdi3323', kc11MPa: 1775, mc: 0.24, source: 'test data' },
      jawFrictionFactor: 1,
      source: 'test data',
    },
  ],
  sizeClasses: [],
  bars: [
    {
      id: 'bar-2x0.75',
      name: '2 × 3/4',
      materialId: '4140',
      sizeClassId: 'cold',
      width: 2 * inch,
      thickness: 0.75 * inch,
      priceBasis: 'piece',
      lengths: [{ id: 'l72', length: 72 * inch, price: 91, stocked: true, quantity: null }],
      measured: null,
      source: 'test data',
    },
  ],
  rack: [],
  vises: [
    {
      id: 'v4',
      name: '4 in vise',
      jawWidth: 4 * inch,
      jawHeight: 1.5 * inch,
      bedHeight: 2.1 * inch,
      maxOpening: 4 * inch,
      bodyLength: 4.4 * inch,
      bodyWidth: 11 * inch,
      fixedJawSetback: 2.2 * inch,
      maxClampForceN: 25000,
      screw: {
        nominalDiameter: 19,
        meanDiameter: 16.5,
        lead: 5,
        threadHalfAngleDeg: 14.5,
        threadFriction: 0.15,
        collarFriction: 0.12,
        collarMeanDiameter: 25,
        source: 'test data',
      },
      movingJawCannotCock: false,
      source: 'test data',
    },
  ],
  jawSets: [
    {
      id: 'soft4',
      name: 'Soft jaws, aluminium, set 2',
      face: 'soft',
      thickness: 0.75 * inch,
      height: 1.75 * inch,
      millable: true,
      bolts: {
        thread: '3/8',
        spacing: 2.5 * inch,
        centreHeight: 0.875 * inch,
        counterboreDiameter: 15.9,
        counterboreDepth: 10,
      },
      leastFlatGrip: 0.25 * inch,
      comfortableGrip: 0.375 * inch,
      maxProudToGrip: 3,
      maxProudToThickness: 2,
      friction: { ground: 0.07, machined: 0.1, asSupplied: 0.15 },
      yieldStrengthMPa: 250,
      source: 'test data',
    },
  ],
  parallels: [],
  tools: [
    {
      kind: 'keySeat',
      id: 'k608',
      number: 'T7',
      name: 'Key-seat cutter 1 × 3/16',
      toolMaterial: 'carbide',
      diameter: 1.125 * inch,
      flutes: 8,
      shankDiameter: 0.5 * inch,
      overallLength: 4 * inch,
      wearFactor: 1.3,
      coatingFactor: 1,
      width: 0.1875 * inch,
      neckDiameter: 0.4 * inch,
      neckLength: 1.6 * inch,
      keyNumber: '609',
      source: 'measured',
    },
    {
      kind: 'endMill',
      id: 'em12',
      number: 'T3',
      name: 'End mill 1/2, long',
      toolMaterial: 'carbide',
      diameter: 12.7,
      flutes: 4,
      shankDiameter: 12.7,
      overallLength: 100,
      wearFactor: 1.3,
      coatingFactor: 1,
      helixDeg: 38,
      fluteLength: 50,
      cornerRadius: 0,
      neck: null,
      source: 'measured',
    },
  ],
  holders: [
    {
      id: 'er',
      name: 'Collet chuck',
      noseDiameter: 1.1 * inch,
      noseLength: 0.8 * inch,
      bodyDiameter: 50,
      source: 'measured',
    },
  ],
  saws: [
    {
      id: 'band',
      name: 'Band saw',
      kerf: 1.4,
      lengthPlus: 1,
      lengthMinus: 0,
      stub: 20,
      squaringTrim: 3,
      badEnd: 0,
      areaRateMm2PerMin: 1500,
      source: 'measured',
    },
  ],
  bowMeasurements: [],
  rules: getDefaultRules(),
};

function buildPart(id: string, name: string, quantity: number, sizes: [number, number, number]): Part {
  const [length, height, thickness] = sizes;
  return {
    id,
    name,
    number: `WM-${id}`,
    hand: 'none',
    quantity,
    length,
    height,
    thickness,
    stations: [
      { kind: 'boss', from: 0, to: 1.25 * inch, width: thickness, widthEnd: thickness },
      { kind: 'taper', from: 1.25 * inch, to: 1.75 * inch, width: thickness, widthEnd: thickness * 0.6 },
      { kind: 'shank', from: 1.75 * inch, to: length - 1.75 * inch, width: thickness * 0.6, widthEnd: thickness * 0.6 },
      {
        kind: 'taper',
        from: length - 1.75 * inch,
        to: length - 1.25 * inch,
        width: thickness * 0.6,
        widthEnd: thickness,
      },
      { kind: 'boss', from: length - 1.25 * inch, to: length, width: thickness, widthEnd: thickness },
    ],
    holes: [
      { id: `${id}-h1`, axis: 'z', x: 0.6 * inch, z: 0, diameter: 8, slotLength: 0, through: true, beforeCutOff: true },
      {
        id: `${id}-h2`,
        axis: 'y',
        x: length - 0.6 * inch,
        z: height / 2,
        diameter: 12,
        slotLength: 0,
        through: true,
        beforeCutOff: true,
      },
    ],
    keepOuts: [],
    allowance: null,
    thicknessTolerance: null,
    heightTolerance: null,
    asSupplied: [],
    note: '',
  };
}

function buildPlan(parts: Part[]): Plan {
  return {
    format: 'kerfgrip-plan',
    version: 1,
    name: 'Sluice hoist, setup 1',
    number: 'WM-04',
    revision: 'B',
    author: 'Mill volunteers',
    date: '2025-03-14',
    notes: '',
    units: 'in',
    parts,
    stock: {
      materialId: '4140',
      barId: 'auto',
      wayUp: 'auto',
      measuredHeight: null,
      measuredThickness: null,
      measuredBow: null,
      heatMark: 'H 2231',
    },
    allowance: perFace(0.03 * inch),
    laterOperation: {
      top: 'grind after hardening',
      bottom: 'mill and grind',
      fixedSide: 'grind',
      movingSide: 'grind',
      leftEnd: 'file',
      rightEnd: 'file',
    },
    cleanup: {
      top: 0.03 * inch,
      leftEnd: 0.06 * inch,
      rightEnd: 0.06 * inch,
      skinPerSide: 'auto',
      fromFixedJaw: 'auto',
    },
    layout: 'auto',
    partsPerBlank: { pinned: 2 },
    holding: {
      viseId: 'v4',
      jawSetId: 'soft4',
      viseCount: 'auto',
      vises: 'auto',
      seat: { pinned: { kind: 'shelf' } },
      shelfDepth: 'auto',
      spacer: 'auto',
      spacerHeight: 'auto',
      blankX: 'auto',
      targetGrip: 'auto',
      clamp: { kind: 'force', clampForceN: 20000 },
      grippedSurface: 'auto',
      faceToFixedJaw: 'rolled face, marked F',
      alignmentNote: 'indicated to 0.0005 in over the jaw',
    },
    release: {
      cutterId: 'auto',
      clearance: 'auto',
      sides: 'both',
      keep: 'auto',
      ribTarget: 'auto',
      tabs: 'auto',
      tabLength: 'auto',
      dressNote: 'snap, then file flush',
    },
    cuts: [
      {
        id: 'c1',
        name: 'Profile',
        kind: 'side',
        toolId: 'em12',
        holderId: 'er',
        stepDown: 7.5,
        sideEngagement: 1,
        feedPerTooth: 0.05,
        cuttingSpeedMPerMin: 90,
        stickOut: 'auto',
      },
      {
        id: 'c2',
        name: 'Cut-off',
        kind: 'cutOff',
        toolId: '',
        holderId: 'er',
        stepDown: 4.76,
        sideEngagement: 2,
        feedPerTooth: 0.02,
        cuttingSpeedMPerMin: 60,
        stickOut: 'auto',
      },
    ],
    order: {
      sawId: 'band',
      squaringTrim: 'auto',
      badEnd: 'auto',
      stub: 'auto',
      leastRemnant: 'auto',
      useRack: true,
      spares: { kind: 'none' },
      maxPatterns: null,
    },
    zero: { x: 'stop', y: 'fixedJaw', z: 'jawTop' },
    marking: {
      text: 'WM-04',
      place: 'top face, 1 in from the left end',
      method: 'hand stamp',
      when: 'beforeFinishing',
    },
    accepted: [
      {
        code: 'grip-close',
        by: 'Mill volunteers',
        date: '2025-03-14',
        sentence: 'Grip 0.298 in is close: the jaws are comfortable from 0.375 in.',
      },
    ],
    recorded: [],
    library: {
      materials: [],
      sizeClasses: [],
      bars: [],
      vises: [],
      jawSets: [],
      parallels: [],
      tools: [],
      holders: [],
      saws: [],
    },
  };
}

/** A height stack with 0.030 allowances and cleanup, a 3/16 slot and what is left as grip. */
function buildStack(partId: string, partHeight: number, barHeight: number): StackResult {
  const clearance = 0.05 * inch;
  const kerf = 0.1875 * inch;
  const thin = 0.03 * inch;
  const grip = barHeight - (thin * 3 + partHeight + kerf + clearance);
  const heights: [StackResult['slices'][number]['kind'], string, number][] = [
    ['cleanup', 'cleanup', thin],
    ['allowanceTop', 'allowance', thin],
    ['part', 'part', partHeight],
    ['allowanceBottom', 'allowance', thin],
    ['kerf', 'cut-off kerf', kerf],
    ['clearance', 'clearance', clearance],
    ['grip', 'grip', grip],
  ];
  let z = barHeight - grip;
  const slices = heights.map(([kind, label, height]) => {
    const slice = { kind, label, height, zTop: z };
    z -= height;
    return slice;
  });
  const partBottomZ = clearance + kerf + thin;
  return {
    governingPartId: partId,
    slices,
    needAboveJaws: barHeight - grip,
    availableGrip: limits(grip, 0.13),
    gripAsked: 0.375 * inch,
    grip: limits(grip, 0.13),
    proudHeight: limits(barHeight - grip),
    clearance,
    shortBy: 0,
    partBottomZ,
    partTopZ: partBottomZ + partHeight,
    gripFigure: figure(grip),
    proudFigure: figure(barHeight - grip),
  };
}

function buildBlank(
  part: Part,
  label: string,
  xs: number[],
  length: number,
  count: number,
  barHeight: number,
): BlankResult {
  const x = 0;
  const centres = getCentres();
  const half = 2 * inch;
  const contacts = centres.flatMap((centre, viseIndex) => {
    const from = Math.max(x, centre - half);
    const to = Math.min(x + length, centre + half);
    return to > from ? [{ viseIndex, from, to }] : [];
  });
  const last = contacts.at(-1)?.to ?? length;
  return {
    templateId: label,
    label,
    count,
    length,
    tightLength: length,
    parts: xs.map((at, index) => ({
      slotId: `${label}-${index}`,
      partId: part.id,
      x: at,
      xEnd: at + part.length,
      mirrored: index % 2 === 1,
      clash: '',
    })),
    x,
    xEnd: length,
    stack: buildStack(part.id, part.height, barHeight),
    contacts,
    contactLength: contacts.reduce((sum, contact) => sum + contact.to - contact.from, 0),
    overhangLeft: contacts[0]?.from ?? 0,
    overhangRight: length - last,
    largestGap: 2 * inch,
    longestLegalOverhang: figure(80),
    hold: {
      rows: [
        { cutId: 'c1', slipFactor: figure(4.1, 'ratio'), tipFactor: figure(2.4, 'ratio'), factor: 2.4, opens: false },
      ],
      weakest: { cutId: 'c1', factor: figure(2.4, 'ratio'), by: 'tip' },
      jawPressureMPa: figure(40, 'stress'),
      jawPressureAllowedMPa: 125,
      remedies: [],
    },
    deflection: { proudWall: figure(0.01), overhang: figure(0.02), betweenVises: figure(0.002), worst: figure(0.02) },
    massKg: 2.1,
  };
}

function getCentres(): number[] {
  return [2.2 * inch, 8.2 * inch, 14.2 * inch];
}

function buildRib(part: Part): RibResult {
  const rib = 0.03 * inch;
  const boss = 0.06 * inch;
  const outer = 0.06 * inch;
  return {
    partId: part.id,
    narrowest: { rib, x: part.length / 2 },
    widest: { rib: boss, x: 0.2 * inch },
    widestFigure: figure(boss),
    profile: [
      { x: 0, width: part.thickness + outer, rib: boss },
      { x: 1.25 * inch, width: part.thickness + outer, rib: boss },
      { x: 1.75 * inch, width: part.thickness * 0.6 + outer, rib },
      { x: part.length - 1.75 * inch, width: part.thickness * 0.6 + outer, rib },
      { x: part.length - 1.25 * inch, width: part.thickness + outer, rib: boss },
      { x: part.length, width: part.thickness + outer, rib: boss },
    ],
    ribLength: part.length,
    tabs: [],
    tabsFrom: 'none',
    shearStrengthN: 3000,
    bendingStressNowMPa: figure(80, 'stress'),
    allowedStressMPa: 207,
    later: [],
    snapForceN: figure(120, 'force'),
    snapBy: 'hand',
  };
}

/** Six pawl arms, two on a blank, in three vises with a shelf milled into soft jaws. Inch. */
export function buildInchFixture(): DrawingFixture {
  const pawl = buildPart('P1', 'Pawl arm', 6, [7.25 * inch, 1.25 * inch, 0.5 * inch]);
  const lever = buildPart('P2', 'Hoist lever', 2, [11.5 * inch, 1.375 * inch, 0.625 * inch]);
  const plan = buildPlan([pawl, lever]);
  const barHeight = 2 * inch;
  const barThickness = 0.75 * inch;
  const a = buildBlank(pawl, 'A', [0.09 * inch, 0.09 * inch + 7.25 * inch + 1.245 * inch], 15.93 * inch, 3, barHeight);
  const b = buildBlank(lever, 'B', [0.09 * inch], 11.68 * inch, 2, barHeight);
  const grip = b.stack.grip.nominal;
  return {
    plan,
    shop,
    evaluation: {
      section: {
        barId: decided('bar-2x0.75'),
        wayUp: decided('onEdge'),
        name: '2 × 3/4',
        sizeClassId: 'cold',
        skinTop: 0,
        surfaceState: 'drawn',
        height: limits(barHeight, 0.127),
        thickness: limits(barThickness, 0.127),
        sizeFrom: 'class',
        cornerRadius: 0,
        skinPerSide: decided(0.25),
        surface: 'asSupplied',
        massKgPerM: 7.6,
      },
      blanks: [a, b],
      governingBlank: 1,
      across: [pawl, lever].map((part) => ({
        partId: part.id,
        shortBy: 0,
        overBy: 0,
        bow: 0.1,
        need: part.thickness + 2,
        partFromFixedJaw: (barThickness - part.thickness) / 2,
        cleanup: { fixedSide: 0.5, movingSide: 0.5 },
        oneSided: false,
        why: figure(part.thickness + 2),
      })),
      seat: {
        choice: decided({ kind: 'shelf' }, true),
        grip,
        shelfDepth: decided(grip),
        deepestLegalShelf: figure(0.5 * inch),
        deepestLimitedBy: 'counterbore',
        spacer: decided(0.5 * inch),
        spacerHeight: decided(1.25 * inch),
        ledge: figure(0.125 * inch),
        wallBehind: 0.625 * inch,
        jawHeight: 1.75 * inch,
        parallels: [],
        nextLower: null,
        nextHigher: null,
        shim: null,
        flatGrip: grip,
        headFace: null,
        reachesHead: false,
        targetGrip: decided(0.375 * inch),
        mostGrip: grip,
        stumpHeight: grip,
        holesOverSupport: [],
      },
      vises: {
        count: decided(3),
        centres: decided(getCentres()),
        clash: '',
        clampForceN: figure(20000, 'force'),
        countedClampForceN: 16600,
      },
      cuts: [],
      reach: [
        {
          cutId: 'c1',
          toolId: 'em12',
          stickOut: decided(52),
          needStickOut: 52,
          ratio: figure(4.1, 'ratio'),
          ratioComfort: 5,
          ratioLimit: 8,
          deflection: figure(0.053),
          stepDowns: 6,
          clash: '',
          holderGap: 3,
        },
        {
          cutId: 'c2',
          toolId: 'k608',
          stickOut: decided(2.05 * inch),
          needStickOut: 2.05 * inch,
          ratio: figure(1.8, 'ratio'),
          ratioComfort: 5,
          ratioLimit: 8,
          deflection: figure(0.02),
          stepDowns: 1,
          clash: '',
          holderGap: 3,
        },
      ],
      release: {
        cutterId: decided('k608'),
        clearance: decided(0.05 * inch),
        ribTarget: decided(0.03 * inch),
        keep: decided('rib'),
        reach: figure(0.3525 * inch),
        depthPerSide: figure(0.3 * inch),
        parts: [buildRib(pawl), buildRib(lever)],
        cutOffMinutes: figure(6, 'time'),
        sawMinutes: figure(7, 'time'),
      },
      bow: [],
      allowance: [pawl, lever].flatMap((part) =>
        (['top', 'bottom', 'fixedSide', 'movingSide', 'leftEnd', 'rightEnd'] as const).map((face) => ({
          partId: part.id,
          face,
          left: 0.03 * inch,
          worstCase: 0.024 * inch,
          rootSumSquare: 0.014 * inch,
          terms: [{ name: 'bow', value: 0.01 * inch }],
          ok: true,
        })),
      ),
      gang: [],
      spares: [pawl, lever].map((part) => ({
        partId: part.id,
        ordered: part.quantity,
        spares: 1,
        make: part.quantity + 1,
        blanks: 4,
        made: part.quantity + 2,
        chanceOfEnough: null,
        why: figure(1, 'count'),
      })),
      order: {
        bars: [
          {
            barIndex: 0,
            times: 1,
            lengthId: 'l72',
            kind: 'new',
            length: 72 * inch,
            cost: 91,
            lines: [
              {
                sequence: 1,
                barIndex: 0,
                kind: 'trim',
                blankTemplateId: '',
                label: 'trim',
                length: 3,
                from: 0,
                to: 3,
                kerf: 1.4,
              },
              ...Array.from({ length: 4 }, (_unused, index) => ({
                sequence: index + 2,
                barIndex: 0,
                kind: 'blank' as const,
                blankTemplateId: 'A',
                label: 'A',
                length: 15.93 * inch,
                from: 4.4 + index * (15.93 * inch + 1.4),
                to: 4.4 + index * (15.93 * inch + 1.4) + 15.93 * inch,
                kerf: 1.4,
              })),
              {
                sequence: 6,
                barIndex: 0,
                kind: 'drop',
                blankTemplateId: '',
                label: 'drop',
                length: 72 * inch - 4.4 - 4 * (15.93 * inch + 1.4),
                from: 4.4 + 4 * (15.93 * inch + 1.4),
                to: 72 * inch,
                kerf: 0,
              },
            ],
            drop: 72 * inch - 4.4 - 4 * (15.93 * inch + 1.4),
            dropIsRemnant: true,
            zeroMargin: false,
            cuts: 5,
          },
        ],
        purchase: [{ barId: 'bar-2x0.75', lengthId: 'l72', length: 72 * inch, count: 2, unitCost: 91, cost: 182 }],
        cost: figure(182, 'money'),
        priceKnown: true,
        bound: 182,
        proven: true,
        unplaced: [],
        yieldByLength: figure(0.91, 'fraction'),
        yieldToBlank: figure(0.9, 'fraction'),
        yieldToPart: figure(0.5, 'fraction'),
        massKg: figure(28, 'mass'),
        totalBars: 2,
      },
      sections: [],
      figures: {
        grip: figure(grip),
        proudHeight: figure(barHeight - grip),
        shelfDepth: figure(grip),
        hold: figure(2.4, 'ratio'),
        rib: figure(0.06 * inch),
        stickOut: figure(2.05 * inch),
        bars: figure(2, 'count'),
        yield: figure(0.5, 'fraction'),
        cost: figure(182, 'money'),
      },
      findings: [
        {
          code: 'grip-close',
          key: 'grip-close',
          severity: 'check',
          sentence: 'Grip 0.298 in is close: the jaws are comfortable from 0.375 in.',
          detail: 'worst bar 0.293; proud 5.7 × grip',
          numbers: [],
          features: [{ kind: 'stack', id: 'grip' }],
          fixes: [],
          accepted: true,
        },
      ],
    },
  };
}
