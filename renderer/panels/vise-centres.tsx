import { setAtPath } from '../../shared/model/edit';
import { getLengthReader } from '../state/entry';
import { useApp, useEvaluation, usePlan } from '../state/hooks';
import { NumberField } from '../ui/number-field';
import { ChoiceMark, useChoice } from './decision-field';

/** Where each vise stands, from the stop. Moving one pins them all. */
export function ViseCentres() {
  const { documents } = useApp();
  const { units } = usePlan();
  const { vises } = useEvaluation();
  const reader = getLengthReader(units, { allowNegative: true });
  const show = (centres: readonly number[]): string => centres.map((centre) => reader.show(centre)).join(', ');
  const label = 'Vise centres';
  const control = useChoice<number[]>({ label, path: ['holding', 'vises'], decided: vises?.centres ?? null }, show);
  const centres = control.value ?? [];
  if (vises === null) return null;
  const move = (index: number, centre: number): void => {
    const moved = centres.map((standing, other) => (other === index ? centre : standing)).toSorted((a, b) => a - b);
    const verb = reader.show(centre) === reader.show(centres[index] ?? Number.NaN) ? 'pin' : 'move';
    documents.edit(`${verb} vise ${index + 1} ${verb === 'pin' ? 'at' : 'to'} ${reader.show(centre)}`, (plan) =>
      setAtPath(plan, ['holding', 'vises'], { pinned: moved }),
    );
  };
  return (
    <div className="decision-row is-list">
      <fieldset className="number-list">
        <legend className="field-label">{label}</legend>
        {centres.map((centre, index) => (
          <NumberField
            // biome-ignore lint/suspicious/noArrayIndexKey: vises are known by their place in the row.
            key={index}
            label={`Vise ${index + 1} centre`}
            hideLabel
            reader={{ ...reader, unit: '' }}
            value={centre}
            isAuto={!control.pinned}
            onCommit={(next) => move(index, next)}
            onToggleKey={control.toggle}
          />
        ))}
      </fieldset>
      <ChoiceMark {...control} label={label} decided={vises.centres} show={show} />
    </div>
  );
}
