import { FACES, type Face } from '../../shared/model/faces';
import { formatLength } from '../../shared/units/format';
import { getLengthReader } from '../state/entry';
import { useEvaluation, usePlan } from '../state/hooks';
import { SeverityMark } from '../ui/icon';
import { DecisionField } from './decision-field';
import { PlanLength } from './plan-fields';

export const FACE_LABELS: Readonly<Record<Face, string>> = {
  top: 'Top',
  bottom: 'Bottom',
  fixedSide: 'Fixed jaw side',
  movingSide: 'Moving jaw side',
  leftEnd: 'Left end',
  rightEnd: 'Right end',
};

/** What comes off the raw bar now, and what stays on the part for later. */
export function FacesPanel() {
  const plan = usePlan();
  const { section } = useEvaluation();
  const offset = { mayBeEmpty: true, allowNegative: true };
  return (
    <>
      <AllowanceTable />
      <PlanLength label="Cleanup, top" path={['cleanup', 'top']} />
      <PlanLength label="Cleanup, left end" path={['cleanup', 'leftEnd']} />
      <PlanLength label="Cleanup, right end" path={['cleanup', 'rightEnd']} />
      <DecisionField
        label="Skin, each side"
        path={['cleanup', 'skinPerSide']}
        decided={section?.skinPerSide ?? null}
        reader={getLengthReader(plan.units, { mayBeEmpty: true })}
      />
      <PartFromJaw offset={offset} />
    </>
  );
}

function PartFromJaw({ offset }: { offset: { mayBeEmpty: boolean; allowNegative: boolean } }) {
  const plan = usePlan();
  const { across } = useEvaluation();
  const [first] = across;
  const choice = plan.cleanup.fromFixedJaw;
  return (
    <DecisionField
      label="Off the fixed jaw"
      path={['cleanup', 'fromFixedJaw']}
      decided={
        first === undefined
          ? null
          : {
              value: choice === 'auto' ? first.cleanup.fixedSide : choice.pinned,
              pinned: choice !== 'auto',
              auto: first.cleanup.fixedSide,
              why: {
                rule: 'The part is centred in the bar, so that as much comes off one side as off the other',
                formula: '',
                inputs: [],
                source: 'geometry',
              },
            }
      }
      reader={getLengthReader(plan.units, offset)}
    />
  );
}

function AllowanceTable() {
  const { units } = usePlan();
  const { allowance } = useEvaluation();
  return (
    <table className="small-table">
      <caption className="visually-hidden">Allowance left on each face, and what the worst case needs</caption>
      <thead>
        <tr>
          <th scope="col">Left for later</th>
          <th scope="col" className="is-number">
            {units}
          </th>
          <th scope="col" className="is-number">
            needs
          </th>
        </tr>
      </thead>
      <tbody>
        {FACES.map((face) => {
          const rows = allowance.filter((row) => row.face === face);
          const need = rows.reduce((most, row) => Math.max(most, row.worstCase), 0);
          const isShort = rows.some((row) => !row.ok);
          return (
            <tr key={face}>
              <th scope="row">{FACE_LABELS[face]}</th>
              <td>
                <PlanLength
                  label={`Allowance, ${FACE_LABELS[face].toLowerCase()}`}
                  path={['allowance', face]}
                  hideLabel
                />
              </td>
              <td className="is-number">
                {isShort && <SeverityMark severity="check" />}
                {rows.length === 0 ? '—' : formatLength(need, units)}
                {isShort && <span className="visually-hidden">, short</span>}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
