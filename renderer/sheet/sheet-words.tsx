import { FACES } from '../../shared/model/faces';
import type { Marking, ZeroPoint } from '../../shared/model/plan';
import { FACE_LABELS } from '../panels/faces-panel';
import { PlanSelect, PlanText } from '../panels/plan-fields';
import { getLengthReader } from '../state/entry';
import { useApp, usePlan, useView } from '../state/hooks';
import { NumberField } from '../ui/number-field';
import type { Option } from '../ui/select-field';

const ZERO_X: readonly Option<ZeroPoint['x']>[] = [
  { id: 'stop', label: 'work stop' },
  { id: 'partLeft', label: 'part, left end' },
  { id: 'blankLeft', label: 'blank, left end' },
];
const ZERO_Y: readonly Option<ZeroPoint['y']>[] = [
  { id: 'fixedJaw', label: 'fixed jaw face' },
  { id: 'partCentre', label: 'part centre' },
];
const ZERO_Z: readonly Option<ZeroPoint['z']>[] = [
  { id: 'jawTop', label: 'jaw tops' },
  { id: 'partTop', label: 'part top' },
  { id: 'blankTop', label: 'blank top' },
];
const WHEN: readonly Option<Marking['when']>[] = [
  { id: 'beforeFinishing', label: 'before finishing' },
  { id: 'afterFinishing', label: 'after finishing' },
  { id: 'tag', label: 'tag or bag' },
];

/** The words only the user knows: what the job is called, where zero is, how parts are marked. */
export function SheetWords() {
  return (
    <div className="sheet-words">
      <h3>Job</h3>
      <PlanText label="Name" path={['name']} of="the plan" />
      <PlanText label="Number" path={['number']} of="the plan" />
      <PlanText label="Revision" path={['revision']} />
      <PlanText label="Author" path={['author']} />
      <PlanText label="Date" path={['date']} placeholder="2025-06-30" />
      <PlanText label="Notes" path={['notes']} lines={3} />
      <h3>Zero</h3>
      <PlanSelect label="X" path={['zero', 'x']} of="zero" options={ZERO_X} />
      <PlanSelect label="Y" path={['zero', 'y']} of="zero" options={ZERO_Y} />
      <PlanSelect label="Z" path={['zero', 'z']} of="zero" options={ZERO_Z} />
      <h3>At the machine</h3>
      <PlanText label="To the fixed jaw" path={['holding', 'faceToFixedJaw']} placeholder="which bar face" />
      <PlanText label="Alignment" path={['holding', 'alignmentNote']} placeholder="target, how checked" />
      <PlanText label="Break and dress" path={['release', 'dressNote']} placeholder="how the rib comes off" />
      <h3>Marking</h3>
      <PlanText label="Text" path={['marking', 'text']} of="the mark" />
      <PlanText label="Place" path={['marking', 'place']} of="the mark" />
      <PlanText label="Method" path={['marking', 'method']} of="the mark" />
      <PlanSelect label="When" path={['marking', 'when']} of="the mark" options={WHEN} />
      <h3>Taken off later by</h3>
      {FACES.map((face) => (
        <PlanText key={face} label={FACE_LABELS[face]} path={['laterOperation', face]} of="later operation" />
      ))}
      <h3>Print check</h3>
      <MeasuredSquare />
    </div>
  );
}

function MeasuredSquare() {
  const { view } = useApp();
  const { units } = usePlan();
  const measured = useView((state) => state.measuredSquare);
  return (
    <>
      <p className="panel-remark">
        Measure the 100 mm square on the last page as your printer made it. The next print says whether it is to scale.
      </p>
      <NumberField
        label="100 mm square"
        reader={getLengthReader(units, {
          field: '100 mm square',
          mayBeEmpty: true,
          allowZero: false,
          usual: { min: 80, max: 120 },
        })}
        value={measured}
        placeholder="not measured"
        onCommit={(measuredSquare) => view.store.setState({ measuredSquare })}
        onClear={() => view.store.setState({ measuredSquare: null })}
      />
    </>
  );
}
