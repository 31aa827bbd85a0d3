import type { Evaluation } from '../../evaluate';
import type { FeatureRef } from '../../findings/finding';
import type { Plan } from '../../model/plan';
import type { Shop } from '../../model/shop';
import { addCounterbore } from '../counterbore';
import { addDimensionColumn, addDimensionRow, getBothUnitsText } from '../dimensions';
import {
  addLine,
  addPath,
  addText,
  addTextOnGround,
  buildView,
  createDraft,
  type Draft,
  TEXT_SIZES,
  toDrawing,
} from '../draft';
import { addCallouts } from '../labels';
import type { View } from '../marks';
import { getPolygon, getRectangle } from '../paths';
import { getScene, type Scene } from '../scene';
import { buildEmptyView, type ViewOptions } from './options';

export interface ShelfOptions extends ViewOptions {
  /** Also the pocket from above, one vise wide, below the section. Default true. */
  fromAbove?: boolean;
}

const GAP_BETWEEN_VIEWS = 10;

/** The jaw shelf while it is milled: jaws closed on the spacer, cut across, and the pocket from above in line with it. */
export function buildShelfPocket(plan: Plan, evaluation: Evaluation, shop: Shop, options: ShelfOptions): View {
  const title = 'Jaw shelf';
  const scene = getScene(plan, evaluation, shop, options.blankIndex);
  if (!scene) {
    return buildEmptyView(plan, 'shelf', title, options.mmPerPaperMm);
  }
  const draft = createDraft(plan.units, options.mmPerPaperMm);
  if (scene.seat.choice.value.kind !== 'shelf') {
    addText(draft, { x: 0, y: 0 }, 'No shelf in this setup.');
    return buildView(draft, 'shelf', title);
  }
  const sizes = getShelfSizes(scene);
  addJawsOnSpacer(draft, scene, sizes);
  if (options.dimensions ?? true) {
    addShelfDimensions(draft, scene, sizes);
  }
  if (options.fromAbove ?? true) {
    addPocketFromAbove(draft, scene, sizes, options.dimensions ?? true);
  }
  return buildView(draft, 'shelf', title);
}

interface ShelfSizes {
  depth: number;
  ledge: number;
  spacer: number;
  spacerTop: number;
  opening: number;
  plate: number;
  bed: number;
}

function getShelfSizes(scene: Scene): ShelfSizes {
  const { seat } = scene;
  const bed = -seat.jawHeight;
  return {
    depth: seat.shelfDepth.value,
    ledge: seat.ledge.value,
    spacer: seat.spacer.value,
    spacerTop: bed + seat.spacerHeight.value,
    opening: seat.spacer.value + 2 * seat.ledge.value,
    plate: scene.jawSet.thickness,
    bed,
  };
}

function addJawsOnSpacer(draft: Draft, scene: Scene, sizes: ShelfSizes): void {
  const { depth, ledge, spacer, spacerTop, opening, plate, bed } = sizes;
  const { bolts } = scene.jawSet;
  for (const side of ['fixed', 'moving'] as const) {
    const y = (into: number): number => (side === 'fixed' ? -into : opening + into);
    const feature: FeatureRef = { kind: 'jaw', id: side };
    const outline = [
      { x: y(plate - ledge), y: bed },
      { x: y(-ledge), y: bed },
      { x: y(-ledge), y: -depth },
      { x: y(0), y: -depth },
      { x: y(0), y: 0 },
      { x: y(plate - ledge), y: 0 },
    ];
    addPath(draft, 'jaw', getPolygon(outline), { pen: 'wide', fill: 'jaw', feature });
    addPath(draft, 'cleanup', getRectangle(Math.min(y(-ledge), y(0)), -depth, Math.max(y(-ledge), y(0)), 0), {
      pen: 'narrow',
      fill: 'cleanup',
      feature: { kind: 'seat', id: 'shelf' },
    });
    if (bolts) {
      const bore = {
        mouth: y(-ledge),
        floor: y(bolts.counterboreDepth - ledge),
        back: y(plate - ledge),
        middle: bed + bolts.centreHeight,
        diameter: bolts.counterboreDiameter,
      };
      addCounterbore(draft, bore, feature);
    }
  }
  addPath(draft, 'seat', getRectangle(ledge, bed, ledge + spacer, spacerTop), {
    pen: 'wide',
    fill: 'seat',
    feature: { kind: 'seat', id: 'spacer' },
  });
  const left = -(plate - ledge) - toDrawing(draft, 3);
  const right = opening + plate - ledge + toDrawing(draft, 3);
  addLine(
    draft,
    'vise',
    [
      { x: left, y: bed },
      { x: right, y: bed },
    ],
    { pen: 'wide' },
  );
  const deepest = scene.seat.deepestLegalShelf.value;
  if (deepest > depth + 1e-6) {
    for (const [from, to] of [
      [0, ledge],
      [opening - ledge, opening],
    ] as const) {
      addLine(
        draft,
        'guide',
        [
          { x: from, y: -deepest },
          { x: to, y: -deepest },
        ],
        { pen: 'dashed' },
      );
    }
  }
}

function addShelfDimensions(draft: Draft, scene: Scene, sizes: ShelfSizes): void {
  const { depth, ledge, spacer, spacerTop, opening, plate, bed } = sizes;
  const both = (mm: number): string => getBothUnitsText(draft, mm);
  addDimensionRow(draft, [{ from: 0, to: opening, text: `opening ${both(opening)}` }], toDrawing(draft, 6), 0);
  const right = opening + plate - ledge + toDrawing(draft, 6);
  addDimensionColumn(
    draft,
    [
      { from: bed, to: -depth, text: `floor ${both(-depth - bed)}` },
      { from: -depth, to: 0, text: `shelf ${both(depth)}`, feature: { kind: 'seat', id: 'shelf' } },
    ],
    right,
    opening,
  );
  addDimensionRow(
    draft,
    [{ from: ledge, to: ledge + spacer, text: `spacer ${both(spacer)}`, feature: { kind: 'seat', id: 'spacer' } }],
    bed - toDrawing(draft, 6),
    bed,
  );
  const bolts = scene.jawSet.bolts;
  const wall = ledge - plate;
  addCallouts(
    draft,
    [
      {
        target: { x: ledge / 2, y: -scene.seat.deepestLegalShelf.value },
        text: `deepest legal ${both(scene.seat.deepestLegalShelf.value)}${scene.seat.deepestLimitedBy === '' ? '' : `, limited by ${scene.seat.deepestLimitedBy}`}`,
        feature: { kind: 'seat', id: 'shelf' },
      },
      {
        target: { x: ledge / 2, y: -depth * 0.6 },
        text: `ledge ${both(ledge)}, both jaws`,
        feature: { kind: 'seat', id: 'shelf' },
      },
      {
        target: { x: ledge + spacer * 0.3, y: spacerTop },
        text: `spacer ${both(spacerTop - bed)} high, below the floor`,
        feature: { kind: 'seat', id: 'spacer' },
      },
      {
        target: { x: wall / 2, y: -depth * 0.4 },
        text: `wall behind ${both(scene.seat.wallBehind)}`,
        feature: { kind: 'seat', id: 'shelf' },
      },
      ...(bolts
        ? [
            {
              target: {
                x: ledge - bolts.counterboreDepth / 2,
                y: bed + bolts.centreHeight + bolts.counterboreDiameter / 2,
              },
              text: `counterbore ⌀ ${both(bolts.counterboreDiameter)}, ${bolts.thread} screw`,
              feature: null,
            },
          ]
        : []),
    ],
    wall - toDrawing(draft, 6),
    'left',
  );
}

/** X runs down the page here, so that Y lines up with the section above. */
function addPocketFromAbove(draft: Draft, scene: Scene, sizes: ShelfSizes, withDimensions: boolean): void {
  const { ledge, spacer, opening, plate, bed } = sizes;
  const top = bed - toDrawing(draft, GAP_BETWEEN_VIEWS + 8);
  const bottom = top - scene.vise.jawWidth;
  const outer = plate - ledge;
  for (const [side, left, right] of [
    ['fixed', -outer, ledge],
    ['moving', opening - ledge, opening + outer],
  ] as const) {
    addPath(draft, 'jaw', getRectangle(left, bottom, right, top), {
      pen: 'wide',
      fill: 'jawFace',
      feature: { kind: 'jaw', id: side },
    });
    const [from, to] = side === 'fixed' ? [0, ledge] : [opening - ledge, opening];
    addPath(draft, 'cleanup', getRectangle(from, bottom, to, top), {
      pen: 'narrow',
      fill: 'cleanup',
      feature: { kind: 'seat', id: 'shelf' },
    });
  }
  addPath(draft, 'seat', getRectangle(ledge, bottom, ledge + spacer, top), {
    pen: 'narrow',
    fill: 'seat',
    feature: { kind: 'seat', id: 'spacer' },
  });
  addBoltPlaces(draft, scene, sizes, (top + bottom) / 2);
  addTextOnGround(draft, { x: -outer / 2, y: top - toDrawing(draft, 4) }, 'fixed', {
    size: TEXT_SIZES.small,
    anchor: 'middle',
  });
  if (withDimensions) {
    addDimensionColumn(
      draft,
      [{ from: bottom, to: top, text: `jaws ${getBothUnitsText(draft, scene.vise.jawWidth)}` }],
      opening + outer + toDrawing(draft, 6),
      opening + outer,
    );
  }
}

function addBoltPlaces(draft: Draft, scene: Scene, sizes: ShelfSizes, middle: number): void {
  const { bolts } = scene.jawSet;
  if (!bolts) {
    return;
  }
  const { ledge, opening, plate } = sizes;
  for (const along of [middle - bolts.spacing / 2, middle + bolts.spacing / 2]) {
    for (const [mouth, floor, back] of [
      [ledge, ledge - bolts.counterboreDepth, ledge - plate],
      [opening - ledge, opening - ledge + bolts.counterboreDepth, opening - ledge + plate],
    ] as const) {
      addCounterbore(draft, { mouth, floor, back, middle: along, diameter: bolts.counterboreDiameter });
    }
  }
}
