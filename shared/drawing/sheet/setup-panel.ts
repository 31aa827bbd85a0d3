import type { Figure } from '../../engine/figure';
import type { SectionResult } from '../../engine/results';
import { formatQuantity } from '../../units/quantity';
import { addLine, addText, type Draft } from '../draft';
import { getEntry } from '../scene';
import { fitText, getTextWidth, wrapText } from '../text-width';
import { FLOW_TEXT } from './flow';
import { getBothText, getLengthText, getQuantityText, type SheetContext } from './sheet-context';

export interface PanelBox {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

const TILES_PER_ROW = 3;
const TILE = { height: 15, label: 1.8, note: 1.8 };
/** Heights of the tiles' figures: the largest at which all fit. */
const FIGURE_SIZES = [4.2, 3.6, 3, 2.5] as const;
const NAME_WIDTH = 17;
const PITCH = 1.6;
const MOST_LINES = 9;

/**
 * What to set before the first cut: the figures that decide, zero, seat recipe, jaws, vises and bar faces.
 *
 * @returns names of the lines for which there was no room
 */
export function addSetupPanel(draft: Draft, context: SheetContext, box: PanelBox): string[] {
  const below = addTiles(draft, context, box);
  let y = below - 2;
  const recipe = getRecipe(context);
  for (const [index, [name, text]] of recipe.entries()) {
    const room = box.right - box.left - NAME_WIDTH;
    const lines = wrapText(text, room, FLOW_TEXT.text, 'regular', MOST_LINES);
    const height = lines.length * FLOW_TEXT.text * PITCH + 1;
    if (y - height < box.bottom) {
      return recipe.slice(index).map(([left]) => left);
    }
    addText(
      draft,
      { x: box.left, y: y - FLOW_TEXT.text * PITCH },
      fitText(name, NAME_WIDTH - 2, FLOW_TEXT.text, 'semibold'),
      {
        size: FLOW_TEXT.text,
        weight: 'semibold',
      },
    );
    for (const [row, line] of lines.entries()) {
      addText(draft, { x: box.left + NAME_WIDTH, y: y - (row + 1) * FLOW_TEXT.text * PITCH }, line, {
        size: FLOW_TEXT.text,
      });
    }
    y -= height;
  }
  return [];
}

interface Tile {
  label: string;
  figure: string;
  note: string;
  isFlagged: boolean;
}

function addTiles(draft: Draft, context: SheetContext, box: PanelBox): number {
  const tiles = getTiles(context);
  const width = (box.right - box.left) / TILES_PER_ROW;
  const size =
    FIGURE_SIZES.find((each) => tiles.every((tile) => getTextWidth(tile.figure, each, 'semibold') <= width - 3)) ?? 2.5;
  for (const [index, tile] of tiles.entries()) {
    const x = box.left + (index % TILES_PER_ROW) * width;
    const top = box.top - Math.floor(index / TILES_PER_ROW) * TILE.height;
    const room = width - 3;
    addLine(
      draft,
      'frame',
      [
        { x, y: top },
        { x: x + room, y: top },
      ],
      { pen: tile.isFlagged ? 'wide' : 'hair' },
    );
    const flag = tile.isFlagged ? '△ ' : '';
    addText(draft, { x, y: top - 3.4 }, fitText(`${flag}${tile.label}`, room, TILE.label), { size: TILE.label });
    addText(draft, { x, y: top - 9 }, fitText(tile.figure, room, size, 'semibold'), {
      size,
      weight: 'semibold',
    });
    addText(draft, { x, y: top - 12.4 }, fitText(tile.note, room, TILE.note), { size: TILE.note });
  }
  return box.top - Math.ceil(tiles.length / TILES_PER_ROW) * TILE.height;
}

/** The figures that never leave the screen, as they stand on paper; those under an open finding carry its triangle. */
function getTiles(context: SheetContext): Tile[] {
  const { figures, seat, blanks, governingBlank } = context.evaluation;
  const blank = blanks[governingBlank];
  const text = (mm: number): string => getLengthText(context, mm);
  const isShelf = seat?.choice.value.kind === 'shelf';
  return [
    getTile(context, 'GRIP', figures.grip, blank ? `worst ${text(blank.stack.grip.least)}` : '', 'grip'),
    getTile(
      context,
      'PROUD',
      figures.proudHeight,
      blank ? `bar ${text(blank.stack.grip.nominal + blank.stack.proudHeight.nominal)} high` : '',
      'proud',
    ),
    isShelf
      ? getTile(
          context,
          'SHELF DEEP',
          figures.shelfDepth,
          seat ? `deepest ${text(seat.deepestLegalShelf.value)}` : '',
          'shelf',
        )
      : {
          label: 'SEAT',
          figure: seat?.choice.value.kind ?? '—',
          note: getParallelHeight(context),
          isFlagged: false,
        },
    getTile(context, 'HOLD, EST.', figures.hold, blank?.hold.weakest ? `by ${blank.hold.weakest.by}` : '', 'hold'),
    getTile(context, 'RIB LEFT', figures.rib, getRibNote(context), 'rib'),
    getTile(context, 'STICK-OUT', figures.stickOut, 'longest', 'stick'),
  ];
}

function getTile(context: SheetContext, label: string, figure: Figure | null, note: string, code: string): Tile {
  const shown = figure
    ? figure.kind === 'length'
      ? getLengthText(context, figure.value)
      : formatQuantity(figure.value, figure.kind, context.units)
    : '—';
  const isFlagged = context.evaluation.findings.some(
    (finding) => finding.severity !== 'note' && finding.code.startsWith(code),
  );
  return { label, figure: shown, note, isFlagged };
}

function getRibNote(context: SheetContext): string {
  const { release } = context.evaluation;
  const snap = release?.parts[0]?.snapBy;
  return snap ? `${release?.keep.value === 'tabs' ? 'tabs, ' : ''}snaps: ${snap}` : '';
}

function getParallelHeight(context: SheetContext): string {
  const { seat } = context.evaluation;
  const choice = seat?.choice.value;
  const row =
    choice?.kind === 'parallels' ? seat?.parallels.find((each) => each.parallelId === choice.parallelId) : null;
  return row ? `${getLengthText(context, row.height)} high` : '';
}

/** Name and text of each line, most needed first: what does not fit on a small page is on the next one too. */
export function getRecipe(context: SheetContext): [string, string][] {
  return [
    ['Seat', getSeatText(context)],
    ['Zero', getZeroText(context)],
    ['Clamp', getClampText(context)],
    ['Jaws', getJawText(context)],
    ['Vises', getVisesText(context)],
    ['Bar', getBarText(context)],
    ['Bar faces', getFaceText(context)],
    ['Machine', getMachineText(context)],
  ];
}

function getZeroText({ plan }: SheetContext): string {
  const x = {
    stop: 'X0 at the stop',
    partLeft: "X0 at the first part's left end",
    blankLeft: "X0 at the blank's left end",
  }[plan.zero.x];
  const y = { fixedJaw: 'Y0 at the fixed jaw', partCentre: "Y0 at the part's middle" }[plan.zero.y];
  const z = {
    jawTop: 'Z0 at the jaw tops',
    partTop: 'Z0 at the finished top of the part',
    blankTop: 'Z0 at the raw top of the bar',
  }[plan.zero.z];
  return `${x}, ${y}, ${z}.`;
}

function getSeatText(context: SheetContext): string {
  const { seat } = context.evaluation;
  if (!seat) {
    return 'none yet';
  }
  const both = (mm: number): string => getBothText(context, mm);
  const choice = seat.choice.value;
  switch (choice.kind) {
    case 'shelf':
      return (
        `Shelf ${both(seat.shelfDepth.value)} deep, ledge ${both(seat.ledge.value)} each jaw. ` +
        `Mill it with the jaws closed on a spacer ${both(seat.spacer.value)} thick and ${both(seat.spacerHeight.value)} high, ` +
        `tightened as in use. Relieve the corner or break the bar's edge. ` +
        `Deepest legal ${both(seat.deepestLegalShelf.value)}${seat.deepestLimitedBy ? `, limited by ${seat.deepestLimitedBy}` : ''}.`
      );
    case 'parallels': {
      const row = seat.parallels.find((each) => each.parallelId === choice.parallelId);
      const size = row ? `${both(row.height)} high, ${both(row.thickness)} thick` : choice.parallelId;
      return `${choice.count === 2 ? 'A pair of parallels' : 'One parallel'} ${size}. Tap down, check that ${choice.count === 2 ? 'both are' : 'it is'} tight. No shelf.`;
    }
    case 'bed':
      return `On the vise bed. Grip is the jaw height, ${both(seat.jawHeight)}.`;
    default:
      return choice satisfies never;
  }
}

function getClampText(context: SheetContext): string {
  const { clamp } = context.plan.holding;
  const { vises } = context.evaluation;
  const asked =
    clamp.kind === 'torque'
      ? `${getQuantityText(context, clamp.handleTorqueNm, 'torque')} at the handle`
      : `${getQuantityText(context, clamp.clampForceN, 'force')} a vise`;
  return vises
    ? `${asked}; counted on after scatter ${getQuantityText(context, vises.countedClampForceN, 'force')} a vise.`
    : asked;
}

function getJawText(context: SheetContext): string {
  const { plan, shop, evaluation } = context;
  const jawSet = getEntry(plan.library.jawSets, shop.jawSets, plan.holding.jawSetId);
  const height = evaluation.seat ? `, ${getBothText(context, evaluation.seat.jawHeight)} above the bed` : '';
  return jawSet ? `${jawSet.name}${height}.` : 'none chosen';
}

function getVisesText(context: SheetContext): string {
  const { plan, shop, evaluation } = context;
  const vise = getEntry(plan.library.vises, shop.vises, plan.holding.viseId);
  const centres = evaluation.vises?.centres.value ?? [];
  if (centres.length === 0) {
    return `${vise?.name ?? 'vise'}, none placed yet.`;
  }
  const places = centres.map((centre) => getLengthText(context, centre)).join(', ');
  const note = plan.holding.alignmentNote ? ` Alignment: ${plan.holding.alignmentNote}.` : '';
  return `${centres.length} × ${vise?.name ?? 'vise'}, centres ${places} from the stop.${note}`;
}

function getBarText(context: SheetContext): string {
  const { section } = context.evaluation;
  if (!section) {
    return 'none fits';
  }
  const way = section.wayUp.value === 'onEdge' ? 'on edge' : 'flat';
  return `${section.name}, ${way}: ${getBothText(context, section.height.nominal)} high × ${getBothText(context, section.thickness.nominal)}.`;
}

const SURFACES: Readonly<Record<SectionResult['surface'], string>> = {
  ground: 'ground',
  machined: 'machined',
  asSupplied: 'unmachined',
};

/** Which face goes where, which end to the stop, and what the jaws grip on. */
function getFaceText({ plan, evaluation }: SheetContext): string {
  const { section } = evaluation;
  const faces = plan.holding.faceToFixedJaw
    ? `To the fixed jaw: ${plan.holding.faceToFixedJaw}.`
    : 'To the fixed jaw: ________________   down: ________________';
  const surface = section ? ` Bar ${section.surfaceState}; friction as on ${SURFACES[section.surface]} faces.` : '';
  return `${faces} Left end as drawn to the stop.${surface}`;
}

function getMachineText(context: SheetContext): string {
  const { name, travelX, travelY } = context.shop.machine;
  const travel = [travelX, travelY].map((mm) => getBothText(context, mm)).join(' × ');
  return `${name || 'not named'}, travel X × Y ${travel}.`;
}
