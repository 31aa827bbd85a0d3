import { FACES, type Face } from '../../model/faces';
import { addHeading, addParagraph, type Flow, startSection } from './flow';
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
    [
      { title: 'part', weight: 'semibold' },
      { title: 'face' },
      { title: 'left', align: 'end', weight: 'semibold' },
      { title: 'needed, worst case', align: 'end' },
      { title: 'needed, root sum square', align: 'end' },
      { title: 'verdict' },
      { title: 'later operation', flexible: true },
    ],
    plan.parts.flatMap((part) => FACES.map((face) => getFaceRow(context, part.id, face))),
    { mostLines: 2 },
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

function getFaceRow(context: SheetContext, partId: string, face: Face): string[] {
  const { plan, evaluation } = context;
  const row = evaluation.allowance.find((each) => each.partId === partId && each.face === face);
  const part = plan.parts.find((each) => each.id === partId);
  const left = row?.left ?? (part?.allowance ?? plan.allowance)[face];
  const operation = plan.laterOperation[face];
  const isFinished = row?.finishedHere ?? left <= 0;
  return [
    getPartTitle(context, partId),
    FACE_NAMES[face],
    getBothText(context, left),
    row && !isFinished ? getLengthText(context, row.worstCase) : '—',
    row && !isFinished ? getLengthText(context, row.rootSumSquare) : '—',
    isFinished ? 'finished here' : row ? (row.ok ? 'enough' : 'too little') : '—',
    operation || (isFinished ? '' : 'not said'),
  ];
}
