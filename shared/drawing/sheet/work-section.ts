import type { ReachResult, RibResult } from '../../engine/results';
import type { Cut } from '../../model/plan';
import type { Holder, Tool } from '../../model/shop';
import { formatNumber } from '../../units/format-number';
import { getEntry } from '../scene';
import { addHeading, addParagraph, type Flow, startSection } from './flow';
import { getBothText, getLengthText, getPartTitle, getQuantityText, type SheetContext } from './sheet-context';
import { addTable } from './table';

/** Tools, the order of work with the cut-off last, what the cut-off leaves, and marking. */
export function addWorkSection(flow: Flow, context: SheetContext): void {
  startSection(flow, 'Tools and order of work');
  addTools(flow, context);
  addOrderOfWork(flow, context);
  addRelease(flow, context);
  addMarking(flow, context);
}

interface ToolRow {
  tool: Tool;
  holder: Holder | null;
  reach: ReachResult | null;
}

/** Each tool once, set out as far as its furthest cut needs. */
function getToolRows(context: SheetContext): ToolRow[] {
  const { plan, shop, evaluation } = context;
  const rows = new Map<string, ToolRow>();
  for (const cut of plan.cuts) {
    const tool = getEntry(plan.library.tools, shop.tools, getToolId(context, cut));
    if (!tool) {
      continue;
    }
    const reach = evaluation.reach.find((row) => row.cutId === cut.id) ?? null;
    const known = rows.get(tool.id);
    const further = (reach?.stickOut.value ?? 0) > (known?.reach?.stickOut.value ?? 0);
    if (!known || further) {
      rows.set(tool.id, { tool, holder: getEntry(plan.library.holders, shop.holders, cut.holderId), reach });
    }
  }
  return [...rows.values()];
}

function getToolId(context: SheetContext, cut: Cut): string {
  return cut.kind === 'cutOff' && cut.toolId === '' ? (context.evaluation.release?.cutterId.value ?? '') : cut.toolId;
}

function addTools(flow: Flow, context: SheetContext): void {
  const text = (mm: number): string => getLengthText(context, mm);
  const rows = getToolRows(context).map(({ tool, holder, reach }) => [
    tool.number,
    tool.name,
    text(tool.diameter),
    tool.kind === 'keySeat' || tool.kind === 'slittingSaw' ? text(tool.width) : '',
    tool.kind === 'endMill' || tool.kind === 'drill' ? text(tool.fluteLength) : '',
    getNeckText(context, tool),
    text(tool.shankDiameter),
    reach ? getBothText(context, reach.stickOut.value) : '—',
    reach
      ? `${formatNumber(reach.ratio.value, { decimals: 1 })} of ${formatNumber(reach.ratioLimit, { decimals: 1, trim: true })}`
      : '—',
    holder ? `${holder.name}, nose ⌀ ${text(holder.noseDiameter)}` : '—',
  ]);
  addHeading(flow, 'Tools');
  addTable(
    flow,
    [
      { title: 'no.', weight: 'semibold' },
      { title: 'tool' },
      { title: '⌀ measured', align: 'end' },
      { title: 'width', align: 'end' },
      { title: 'flutes long', align: 'end' },
      { title: 'neck ⌀ × length', align: 'end' },
      { title: 'shank ⌀', align: 'end' },
      { title: 'set stick-out', align: 'end', weight: 'semibold' },
      { title: 'over ⌀, limit', align: 'end' },
      { title: 'holder', flexible: true },
    ],
    rows,
    { mostLines: 3 },
  );
  if (rows.length === 0) {
    addParagraph(flow, 'No cut in the plan names a tool.');
  }
}

function getNeckText(context: SheetContext, tool: Tool): string {
  const text = (diameter: number, length: number): string =>
    `${getLengthText(context, diameter)} × ${getLengthText(context, length)}`;
  switch (tool.kind) {
    case 'keySeat':
      return text(tool.neckDiameter, tool.neckLength);
    case 'slittingSaw':
      return text(tool.flangeDiameter, tool.arborLength);
    case 'endMill':
      return tool.neck ? text(tool.neck.diameter, tool.neck.length) : '';
    case 'drill':
      return '';
    default:
      return tool satisfies never;
  }
}

function addOrderOfWork(flow: Flow, context: SheetContext): void {
  const { plan, evaluation } = context;
  addHeading(flow, 'Order of work');
  const blank = evaluation.blanks[evaluation.governingBlank];
  const rows = plan.cuts.map((cut, index) => {
    const force = evaluation.cuts.find((row) => row.cutId === cut.id);
    const reach = evaluation.reach.find((row) => row.cutId === cut.id);
    const hold = blank?.hold.rows.find((row) => row.cutId === cut.id);
    return [
      String(index + 1),
      cut.name,
      getToolName(context, cut),
      force ? getQuantityText(context, force.spindleRpm, 'spindleSpeed') : '—',
      force ? getQuantityText(context, force.feedMmPerMin, 'feed') : '—',
      cut.kind === 'cutOff' ? '—' : getLengthText(context, cut.stepDown),
      reach && reach.stepDowns > 0 ? String(reach.stepDowns) : '—',
      getLengthText(context, cut.sideEngagement),
      force ? getQuantityText(context, force.sideForceN.value, 'force') : '—',
      hold ? getQuantityText(context, hold.factor, 'ratio') : '—',
      '__________',
    ];
  });
  addTable(
    flow,
    [
      { title: 'step', align: 'end' },
      { title: 'cut', weight: 'semibold' },
      { title: 'tool' },
      { title: 'speed', align: 'end' },
      { title: 'feed', align: 'end' },
      { title: 'step-down', align: 'end' },
      { title: 'passes', align: 'end' },
      { title: 'side', align: 'end' },
      { title: 'side force', align: 'end' },
      { title: 'hold, estimate', align: 'end' },
      { title: 'seen in practice', flexible: true },
    ],
    rows,
    { mostLines: 3 },
  );
  addParagraph(flow, getOrderWarning(context));
}

/** The tool's number where the shop has given one, else its name. */
function getToolName(context: SheetContext, cut: Cut): string {
  const tool = getEntry(context.plan.library.tools, context.shop.tools, getToolId(context, cut));
  return tool ? tool.number || tool.name : '—';
}

function getOrderWarning({ plan }: SheetContext): string {
  const cutOff = plan.cuts.findIndex((cut) => cut.kind === 'cutOff');
  const after = plan.cuts.slice(cutOff + 1);
  if (cutOff === -1) {
    return 'The plan has no cut-off among its cuts.';
  }
  return after.length === 0
    ? 'The cut-off comes last. Nothing may be milled, drilled, chamfered or deburred by machine after it.'
    : `After the cut-off the rib alone holds the part. Still to come then: ${after.map((cut) => cut.name).join(', ')}.`;
}

function addRelease(flow: Flow, context: SheetContext): void {
  const { release } = context.evaluation;
  addHeading(flow, 'Release');
  if (!release) {
    addParagraph(flow, 'No cut-off can be worked out: see the findings.');
    return;
  }
  const sides = { both: 'from both sides', fixedSide: 'from the fixed side', movingSide: 'from the moving side' };
  addParagraph(
    flow,
    `Cut ${sides[context.plan.release.sides]}, ${getBothText(context, release.depthPerSide.value)} deep at the full width ` +
      `(the cutter reaches ${getBothText(context, release.reach.value)}), ${getBothText(context, release.clearance.value)} above the jaw tops. ` +
      `Cut-off about ${getQuantityText(context, release.cutOffMinutes.value, 'time')}; sawing the same about ${getQuantityText(context, release.sawMinutes.value, 'time')}.`,
  );
  addTable(
    flow,
    [
      { title: 'part', weight: 'semibold' },
      { title: 'narrowest rib', align: 'end' },
      { title: 'at', align: 'end' },
      { title: 'widest rib', align: 'end' },
      { title: 'at', align: 'end' },
      { title: 'kept by', flexible: true },
      { title: 'snaps with', align: 'end' },
      { title: 'force at the top', align: 'end' },
    ],
    release.parts.map((rib) => getRibRow(context, rib, release.keep.value)),
    { mostLines: 4 },
  );
  addParagraph(flow, `Breaking and dressing: ${context.plan.release.dressNote || '________________________________'}`);
}

function getRibRow(context: SheetContext, rib: RibResult, keep: 'rib' | 'tabs'): string[] {
  const text = (mm: number): string => getLengthText(context, mm);
  const tabs = rib.tabs.map((tab) => `${text(tab.from)}–${text(tab.to)}`).join(', ');
  return [
    getPartTitle(context, rib.partId),
    text(rib.narrowest.rib),
    text(rib.narrowest.x),
    text(rib.widest.rib),
    text(rib.widest.x),
    keep === 'tabs' && rib.tabs.length > 0
      ? `${rib.tabs.length} tabs at ${tabs} from the left end`
      : 'a rib along the part',
    rib.snapBy,
    getQuantityText(context, rib.snapForceN.value, 'force'),
  ];
}

function addMarking(flow: Flow, context: SheetContext): void {
  const { marking } = context.plan;
  const when = {
    beforeFinishing: 'before later finishing, which may remove or distort it',
    afterFinishing: 'after later finishing',
    tag: 'on a tag or bag, not on the metal',
  }[marking.when];
  addHeading(flow, 'Marking', 12);
  addParagraph(
    flow,
    `Text: ${marking.text || '______________'}   Place: ${marking.place || '______________'}   ` +
      `Method: ${marking.method || '______________'}   When: ${when}. Never on a seated or gripped face.`,
  );
}
