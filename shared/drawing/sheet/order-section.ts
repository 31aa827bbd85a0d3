import type { BarUse, CutListLine, OrderResult } from '../../engine/results';
import { getPaperSize, placeView } from '../place-view';
import { getEntry } from '../scene';
import { buildBarCuts } from '../views/bar-cuts';
import {
  addHeading,
  addParagraph,
  ensureRoom,
  FLOW_TEXT,
  type Flow,
  getLeft,
  getPageDraft,
  getRight,
  startSection,
} from './flow';
import { getIdentity, isHeadCut } from './page-frame';
import { buildFittingView, getScaleText } from './scales';
import { getBothText, getLengthText, getPartTitle, getQuantityText, type SheetContext } from './sheet-context';
import { addTable } from './table';

/** Parts and spares, bars to buy, and every cut of the saw. */
export function addOrderSection(flow: Flow, context: SheetContext): void {
  startSection(flow, 'Parts, order and cut list');
  addJob(flow, context);
  addParts(flow, context);
  addPurchase(flow, context);
  addCutList(flow, context);
}

/** The notes of the plan, and its name and author where the head of page one has no room for them. */
function addJob(flow: Flow, context: SheetContext): void {
  const { plan } = context;
  const isCut = isHeadCut(context);
  if (!isCut && plan.notes === '') return;
  addHeading(flow, 'Job', 12);
  if (isCut) {
    addParagraph(flow, plan.name, { weight: 'semibold' });
    addParagraph(flow, getIdentity(context).join('  ·  '));
  }
  if (plan.notes !== '') addParagraph(flow, plan.notes);
}

function addParts(flow: Flow, context: SheetContext): void {
  const { plan, evaluation } = context;
  addHeading(flow, 'Parts');
  const rows = plan.parts.map((part) => {
    const spares = evaluation.spares.find((row) => row.partId === part.id);
    return [
      part.name,
      part.number,
      { none: '', left: 'left', right: 'right' }[part.hand],
      [part.length, part.height, part.thickness].map((mm) => getLengthText(context, mm)).join(' × '),
      String(part.quantity),
      spares ? String(spares.spares) : '—',
      spares ? String(spares.made) : '—',
      part.note,
    ];
  });
  addTable(
    flow,
    [
      { title: 'part', weight: 'semibold' },
      { title: 'number' },
      { title: 'hand' },
      { title: 'length × height × thickness' },
      { title: 'ordered', align: 'end' },
      { title: 'spares', align: 'end' },
      { title: 'made', align: 'end' },
      { title: 'note', flexible: true },
    ],
    rows,
    { mostLines: 3 },
  );
}

function addPurchase(flow: Flow, context: SheetContext): void {
  const { order } = context.evaluation;
  addHeading(flow, 'Bars to buy');
  if (!order) {
    addParagraph(flow, 'No order can be worked out yet: see the findings.');
    return;
  }
  const rows = order.purchase.map((line) => {
    const bar = getEntry(context.plan.library.bars, context.shop.bars, line.barId);
    return [
      bar?.name ?? line.barId,
      getBothText(context, line.length),
      String(line.count),
      line.unitCost === null ? 'not known' : getQuantityText(context, line.unitCost, 'money'),
      line.cost === null ? 'not known' : getQuantityText(context, line.cost, 'money'),
    ];
  });
  addTable(
    flow,
    [
      { title: 'bar', weight: 'semibold' },
      { title: 'length', align: 'end' },
      { title: 'count', align: 'end' },
      { title: 'each', align: 'end' },
      { title: 'together', align: 'end' },
    ],
    rows,
  );
  const cost = order.cost ? `Cost ${getQuantityText(context, order.cost.value, 'money')}, ` : 'Cost not known, ';
  const proof = getProofWords(context, order);
  addParagraph(
    flow,
    `${cost}${proof} Mass ${getQuantityText(context, order.massKg.value, 'mass')}. ` +
      `Yield ${getQuantityText(context, order.yieldByLength.value, 'fraction')} by length; ` +
      `${getQuantityText(context, order.yieldToBlank.value, 'fraction')} of the metal used ends in blanks, ` +
      `${getQuantityText(context, order.yieldToPart.value, 'fraction')} in finished parts.`,
  );
  addMeasuredFields(flow, context);
  for (const row of order.unplaced) {
    addParagraph(flow, `Not placed: ${row.count} × ${row.label}: ${row.reason}`);
  }
}

function getProofWords(context: SheetContext, { proven, bound }: OrderResult): string {
  if (proven) return 'proven least.';
  if (bound === null) return 'not proven least.';
  return `not proven least: at least ${getQuantityText(context, bound, 'money')} is needed.`;
}

/** Smallest accepted size, and blanks to write the measured one in. */
function addMeasuredFields(flow: Flow, context: SheetContext): void {
  const { plan, evaluation } = context;
  const { section } = evaluation;
  const given = (mm: number | null): string => (mm === null ? '__________' : getBothText(context, mm));
  const least = section
    ? `Accept no bar under ${getBothText(context, section.height.least)} high × ${getBothText(context, section.thickness.least)} thick as held. `
    : '';
  addParagraph(
    flow,
    `${least}Measured: height ${given(plan.stock.measuredHeight)}   thickness ${given(plan.stock.measuredThickness)}   ` +
      `bow ${given(plan.stock.measuredBow)}   heat mark ${plan.stock.heatMark || '__________'}`,
  );
}

function addCutList(flow: Flow, context: SheetContext): void {
  const { order } = context.evaluation;
  if (!order || order.bars.length === 0) {
    return;
  }
  const saw = getEntry(context.plan.library.saws, context.shop.saws, context.plan.order.sawId);
  addHeading(flow, 'Cut list', 45);
  if (saw) {
    addParagraph(
      flow,
      `${saw.name}: kerf ${getBothText(context, saw.kerf)}, blanks +${getLengthText(context, saw.lengthPlus)} ` +
        `−${getLengthText(context, saw.lengthMinus)}, the saw cannot hold a stub under ${getBothText(context, saw.stub)}. ` +
        'Measure from the freshly sawn end; positions are from the left end of the bar as delivered.',
    );
  }
  addBlankKey(flow, context);
  for (const bar of order.bars) {
    addBar(flow, context, bar);
  }
}

/** What each kind of blank carries. */
function addBlankKey(flow: Flow, context: SheetContext): void {
  const rows = context.evaluation.blanks.map((blank) => [
    blank.label,
    String(blank.count),
    getBothText(context, blank.length),
    [...new Set(blank.parts.map((part) => part.partId))]
      .map((id) => `${blank.parts.filter((part) => part.partId === id).length} × ${getPartTitle(context, id)}`)
      .join(', '),
  ]);
  addTable(
    flow,
    [
      { title: 'blank', weight: 'semibold' },
      { title: 'of it', align: 'end' },
      { title: 'length', align: 'end' },
      { title: 'carries', flexible: true },
    ],
    rows,
    { mostLines: 3 },
  );
}

function addBar(flow: Flow, context: SheetContext, bar: BarUse): void {
  const view = buildFittingView(
    (mmPerPaperMm) => buildBarCuts(bar, { mmPerPaperMm, units: context.units }),
    context.units,
    { width: getRight(flow) - getLeft(), height: 60 },
  );
  const size = getPaperSize(view);
  ensureRoom(flow, size.height + 22);
  const times = bar.times > 1 ? `${bar.times} bars alike: ` : '';
  const kind = bar.kind === 'remnant' ? 'remnant from the rack' : 'new bar';
  const drop = bar.dropIsRemnant ? 'back to the rack' : 'not kept';
  addParagraph(
    flow,
    `Bar ${bar.barIndex + 1}: ${times}${kind}, ${getBothText(context, bar.length)}, ${bar.cuts} cuts, ` +
      `drop ${getBothText(context, bar.drop)} ${drop}${bar.zeroMargin ? ', nothing to spare: measure the bar first' : ''}. ` +
      `Lengths ${getScaleText(view.mmPerPaperMm)}.`,
    { weight: 'semibold', size: FLOW_TEXT.text },
  );
  getPageDraft(flow).marks.push(...placeView(view, getLeft(), flow.y - size.height));
  flow.y -= size.height + 1;
  addTable(
    flow,
    [
      { title: 'cut', align: 'end' },
      { title: 'piece' },
      { title: 'pieces', align: 'end' },
      { title: 'length', align: 'end' },
      { title: 'from', align: 'end' },
      { title: 'to', align: 'end' },
    ],
    getCutRows(context, bar),
  );
}

/** Equal pieces in a row share a line, with where the first begins and the last ends. */
function getCutRows(context: SheetContext, bar: BarUse): string[][] {
  const groups: CutListLine[][] = [];
  for (const line of bar.lines) {
    const last = groups.at(-1);
    const head = last?.[0];
    if (last && head?.label === line.label && head.kind === line.kind && Math.abs(head.length - line.length) < 1e-6) {
      last.push(line);
    } else {
      groups.push([line]);
    }
  }
  return groups.flatMap((group) => {
    const first = group[0];
    const last = group.at(-1);
    if (!(first && last)) {
      return [];
    }
    const cuts = first.sequence === last.sequence ? String(first.sequence) : `${first.sequence}–${last.sequence}`;
    return [
      [
        cuts,
        getPieceName(bar, first),
        String(group.length),
        getBothText(context, first.length),
        getLengthText(context, first.from),
        getLengthText(context, last.to),
      ],
    ];
  });
}

function getPieceName(bar: BarUse, line: CutListLine): string {
  switch (line.kind) {
    case 'blank':
    case 'partBlank':
      return `blank ${line.label}`;
    case 'trim':
      return 'squaring trim';
    case 'badEnd':
      return 'bad end';
    case 'drop':
      return bar.dropIsRemnant ? 'drop, to the rack' : 'drop';
    default:
      return line.kind satisfies never;
  }
}
