import { FACES, type Face } from '../../model/faces';
import { addHeading, addParagraph, FLOW_TEXT, type Flow, startSection } from './flow';
import { getBothText, getLengthText, getPartTitle, getQuantityText, type SheetContext } from './sheet-context';
import { addTable } from './table';

/** The faces in words. */
const FACE_NAMES: Readonly<Record<Face, string>> = {
  top: 'top',
  bottom: 'bottom',
  fixedSide: 'fixed side',
  movingSide: 'moving side',
  leftEnd: 'left end',
  rightEnd: 'right end',
};

/** What stays on each face, whether it is enough, which later operation takes it off, and how far parts may bow. */
export function addAllowanceSection(flow: Flow, context: SheetContext): void {
  startSection(flow, 'Allowances and bow');
  const { plan, evaluation } = context;
  addHeading(flow, 'Left on each face, and what takes it off');
  addTable(
    flow,
    [{ title: 'part', weight: 'semibold' }, ...FACES.map((face) => ({ title: FACE_NAMES[face] }))],
    [
      ...plan.parts.map((part) => [
        getPartTitle(context, part.id),
        ...FACES.map((face) => getFaceText(context, part.id, face)),
      ]),
      ['taken off later', ...FACES.map((face) => plan.laterOperation[face] || '—')],
    ],
    { size: FLOW_TEXT.small, mostLines: 3 },
  );
  addParagraph(
    flow,
    'Left ≥ needed in the worst case (by root sum square). Where < stands, too little is left: see the findings.',
    { size: FLOW_TEXT.small },
  );
  addHeading(flow, 'Bow on release');
  addTable(
    flow,
    [
      { title: 'part', weight: 'semibold' },
      { title: 'expected bow', align: 'end' },
      { title: 'from' },
      { title: 'force that pulls the bar straight', align: 'end' },
      { title: 'springs back', align: 'end' },
      { title: 'measured after release', flexible: true },
    ],
    evaluation.bow.map((row) => [
      getPartTitle(context, row.partId),
      getBothText(context, row.bow.value),
      row.assumed ? 'assumed, measure one' : "the shop's own measurements",
      getQuantityText(context, row.forcedStraightN.value, 'force'),
      getLengthText(context, row.springBack),
      '__________',
    ]),
  );
  addParagraph(
    flow,
    'Bow comes from stress in the bar and differs from bar to bar: measure the first part after release and enter it in the shop.',
  );
}

/** What is left against what is needed, or that nothing is left for later. */
function getFaceText(context: SheetContext, partId: string, face: Face): string {
  const { plan, evaluation } = context;
  const row = evaluation.allowance.find((each) => each.partId === partId && each.face === face);
  const part = plan.parts.find((each) => each.id === partId);
  const left = row?.left ?? (part?.allowance ?? plan.allowance)[face];
  if (row?.finishedHere ?? left <= 0) return 'finished here';
  const text = (mm: number): string => getLengthText(context, mm);
  return row ? `${text(left)} ${row.ok ? '≥' : '<'} ${text(row.worstCase)} (${text(row.rootSumSquare)})` : text(left);
}
