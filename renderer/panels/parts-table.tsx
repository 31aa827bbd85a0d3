import { removePart } from '../../shared/model/edit';
import type { Part } from '../../shared/model/plan';
import { PartFileTools } from '../import/part-file-tools';
import type { LengthEntryOptions } from '../state/entry';
import { useApp, useEvaluation, useKnownShop, usePlan } from '../state/hooks';
import { addPart, changePart, copyPart, mirrorPart } from '../state/part-edits';
import { Button, IconButton } from '../ui/button';
import { PlanLength, PlanQuantity, PlanSelect, PlanText } from './plan-fields';

const HANDS = [
  { id: 'none', label: '—' },
  { id: 'left', label: 'left' },
  { id: 'right', label: 'right' },
] as const;

const SIZES = [
  ['length', 'Length', 'X, along the jaws'],
  ['height', 'Height', 'Z, as it stands'],
  ['thickness', 'Thickness', 'Y, across the jaws'],
] as const;

/** One row a part; every cell is typed in directly. */
export function PartsTable({ selectedId }: { selectedId: string }) {
  const { documents, view } = useApp();
  const plan = usePlan();
  const add = (): void => {
    const added = addPart(plan);
    documents.edit('add a part', () => added.plan);
    view.select([{ kind: 'part', id: added.id }]);
  };
  return (
    <section className="parts-table" aria-label="Parts">
      <div className="scroll-box">
        <table className="data-table">
          <thead>
            <tr>
              <th scope="col">Part</th>
              <th scope="col">Number</th>
              <th scope="col">Hand</th>
              <th scope="col" className="is-number">
                Wanted
              </th>
              {SIZES.map(([key, label, about]) => (
                <th key={key} scope="col" className="is-number">
                  {label} <small>{about}</small>
                </th>
              ))}
              <th scope="col" className="is-number">
                Made
              </th>
              <th scope="col">
                <span className="visually-hidden">What to do with it</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {plan.parts.map((part, index) => (
              <PartRow key={part.id} part={part} index={index} isSelected={part.id === selectedId} />
            ))}
          </tbody>
        </table>
        {plan.parts.length === 0 && (
          <p className="empty">No parts yet. Add the first and type its sizes: 7-1/4, 1.25 or 95 mm all do.</p>
        )}
      </div>
      <div className="list-tools">
        <Button look={plan.parts.length === 0 ? 'primary' : 'plain'} onPress={add}>
          Add a part
        </Button>
        <PartFileTools />
      </div>
    </section>
  );
}

/** What a size should not exceed; beyond it the field asks whether another unit was meant. */
function useSizeLimits(): Record<(typeof SIZES)[number][0], LengthEntryOptions> {
  const plan = usePlan();
  const known = useKnownShop();
  const vise = known.vises.find(({ id }) => id === plan.holding.viseId);
  const tallest = Math.max(
    0,
    ...known.bars.filter(({ materialId }) => materialId === plan.stock.materialId).map(({ width }) => width),
  );
  return {
    length: { allowZero: false, limit: { name: 'table length', max: known.machine.tableLength } },
    height:
      tallest === 0 ? { allowZero: false } : { allowZero: false, limit: { name: 'widest bar on offer', max: tallest } },
    thickness:
      vise === undefined
        ? { allowZero: false }
        : { allowZero: false, limit: { name: 'vise opening', max: vise.maxOpening } },
  };
}

function PartRow({ part, index, isSelected }: { part: Part; index: number; isSelected: boolean }) {
  const { documents, view } = useApp();
  const { spares } = useEvaluation();
  const limits = useSizeLimits();
  const name = part.name.trim() === '' ? `part ${index + 1}` : part.name;
  const row = spares.find((candidate) => candidate.partId === part.id);
  const select = (): void => view.select([{ kind: 'part', id: part.id }]);
  const copy = (): void => {
    const copied = copyPart(documents.store.getState().plan, part.id);
    documents.edit(`copy ${name}`, () => copied.plan);
    view.select([{ kind: 'part', id: copied.id }]);
  };
  return (
    <tr className={isSelected ? 'is-selected' : ''} onFocus={select} aria-current={isSelected}>
      <td className="part-name-cell">
        <PlanText label={`Name of part ${index + 1}`} path={['parts', index, 'name']} hideLabel />
      </td>
      <td>
        <PlanText label={`Number of ${name}`} path={['parts', index, 'number']} hideLabel />
      </td>
      <td className="hand-cell">
        <PlanSelect label={`Hand of ${name}`} path={['parts', index, 'hand']} options={HANDS} hideLabel />
      </td>
      <td className="count-cell">
        <PlanQuantity
          label={`Quantity of ${name}`}
          path={['parts', index, 'quantity']}
          kind="count"
          options={{ min: 1, max: 1_000_000 }}
          hideLabel
        />
      </td>
      {SIZES.map(([key, label]) => (
        <td key={key} className="size-cell">
          <PlanLength
            label={`${label} of ${name}`}
            path={['parts', index, key]}
            options={limits[key]}
            hideLabel
            echoAlways
          />
        </td>
      ))}
      <td className="is-number">{row === undefined ? '—' : row.made}</td>
      <td className="row-buttons">
        <IconButton icon="copy" label={`Copy ${name}`} onPress={copy} />
        <IconButton
          icon="mirror"
          label={`Turn ${name} to the other hand`}
          onPress={() =>
            documents.edit(`turn ${name} to the other hand`, (plan) => changePart(plan, part.id, mirrorPart))
          }
        />
        <IconButton
          icon="trash"
          label={`Remove ${name}`}
          onPress={() => documents.edit(`remove ${name}`, (plan) => removePart(plan, part.id))}
        />
      </td>
    </tr>
  );
}
