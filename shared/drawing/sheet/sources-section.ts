import type { Decided, Figure, Why } from '../../engine/figure';
import { getEntry } from '../scene';
import { addHeading, addParagraph, FLOW_TEXT, type Flow, startSection } from './flow';
import { getQuantityText, type SheetContext } from './sheet-context';
import { addTable } from './table';

/** Where the figures come from: each rule used, with its numbers and its source, so that nobody takes a guess for a standard. */
export function addSourcesSection(flow: Flow, context: SheetContext): void {
  startSection(flow, 'Sources of the figures');
  addHeading(flow, 'Rules used');
  addTable(
    flow,
    [
      { title: 'figure', weight: 'semibold' },
      { title: 'value', align: 'end' },
      { title: 'set by' },
      { title: 'rule' },
      { title: 'source', flexible: true },
    ],
    getRuleRows(context),
    { size: FLOW_TEXT.small, mostLines: 5 },
  );
  addHeading(flow, 'Library entries used');
  addTable(
    flow,
    [{ title: 'entry', weight: 'semibold' }, { title: 'what' }, { title: 'source of its figures', flexible: true }],
    getEntryRows(context),
    { size: FLOW_TEXT.small, mostLines: 4 },
  );
  addParagraph(
    flow,
    'House rules are common practice and yours to change; "from memory" and "typical" mean: measure your own.',
    {
      size: FLOW_TEXT.small,
    },
  );
}

function getRuleRows(context: SheetContext): string[][] {
  const { section, seat, vises, release, blanks, governingBlank, bow } = context.evaluation;
  const blank = blanks[governingBlank];
  const rows: (string[] | null)[] = [
    section ? getChoiceRow('bar', section.barId, section.name) : null,
    section ? getChoiceRow('way up', section.wayUp, section.wayUp.value === 'onEdge' ? 'on edge' : 'flat') : null,
    section ? getDecidedRow(context, 'skin off each side', section.skinPerSide) : null,
    blank ? getFigureRow(context, 'grip', blank.stack.gripFigure) : null,
    blank ? getFigureRow(context, 'proud height', blank.stack.proudFigure) : null,
    seat ? getChoiceRow('seat', seat.choice, seat.choice.value.kind) : null,
    seat?.choice.value.kind === 'shelf' ? getDecidedRow(context, 'shelf depth', seat.shelfDepth) : null,
    seat?.choice.value.kind === 'shelf' ? getFigureRow(context, 'deepest legal shelf', seat.deepestLegalShelf) : null,
    vises ? getChoiceRow('vises', vises.count, String(vises.count.value)) : null,
    vises ? getFigureRow(context, 'clamp force', vises.clampForceN) : null,
    blank?.hold.weakest ? getFigureRow(context, 'hold', blank.hold.weakest.factor) : null,
    blank ? getFigureRow(context, 'longest legal overhang', blank.longestLegalOverhang) : null,
    release ? getDecidedRow(context, 'clearance', release.clearance) : null,
    release ? getDecidedRow(context, 'rib aimed at', release.ribTarget) : null,
    release ? getFigureRow(context, 'cutter reach', release.reach) : null,
    bow[0] ? getFigureRow(context, 'bow on release', bow[0].bow) : null,
    bow[0] ? getFigureRow(context, 'straightness', bow[0].straightness) : null,
  ];
  return rows.filter((row) => row !== null);
}

function getFigureRow(context: SheetContext, name: string, figure: Figure): string[] {
  return [
    name,
    getQuantityText(context, figure.value, figure.kind),
    'engine',
    getRuleText(figure.why),
    figure.why.source,
  ];
}

function getDecidedRow(context: SheetContext, name: string, decided: Decided<number>): string[] {
  return getChoiceRow(name, decided, getQuantityText(context, decided.value, 'length'));
}

function getChoiceRow(name: string, decided: Decided<unknown>, value: string): string[] {
  return [name, value, decided.pinned ? 'pinned' : 'auto', getRuleText(decided.why), decided.why.source];
}

function getRuleText(why: Why): string {
  return why.formula ? `${why.rule}: ${why.formula}` : why.rule;
}

function getEntryRows(context: SheetContext): string[][] {
  const { plan, shop, evaluation } = context;
  const { library } = plan;
  const { section } = evaluation;
  const bar = section ? getEntry(library.bars, shop.bars, section.barId.value) : null;
  const material = getEntry(library.materials, shop.materials, plan.stock.materialId);
  const sizeClass = section ? getEntry(library.sizeClasses, shop.sizeClasses, section.sizeClassId) : null;
  const vise = getEntry(library.vises, shop.vises, plan.holding.viseId);
  const jawSet = getEntry(library.jawSets, shop.jawSets, plan.holding.jawSetId);
  const saw = getEntry(library.saws, shop.saws, plan.order.sawId);
  const toolIds = new Set([evaluation.release?.cutterId.value ?? '', ...plan.cuts.map((cut) => cut.toolId)]);
  const tools = [...toolIds].map((id) => getEntry(library.tools, shop.tools, id)).filter((tool) => tool !== null);
  const entries: [string, { name: string; source: string } | null][] = [
    ['material', material],
    ['cutting force constants', material ? { name: material.name, source: material.kienzle.source } : null],
    ['size class', sizeClass],
    ['bar', bar],
    ['vise', vise],
    ['jaws', jawSet],
    ['saw', saw],
    ...tools.map((tool): [string, { name: string; source: string }] => ['tool', tool]),
  ];
  return entries.flatMap(([what, entry]) => (entry ? [[entry.name, what, entry.source || 'not said']] : []));
}
