import { memo, type RefObject, useEffect, useMemo, useRef } from 'react';
import { removePart } from '../../shared/model/edit';
import type { Part } from '../../shared/model/plan';
import { PartFileTools } from '../import/part-file-tools';
import type { LengthEntryOptions } from '../state/entry';
import { useApp, useEvaluation, useKnownShop, usePlan, usePlanFact } from '../state/hooks';
import { addPart, changePart, copyPart, mirrorPart } from '../state/part-edits';
import { Button, IconButton } from '../ui/button';
import { useRowWindow } from '../ui/use-row-window';
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
  const box = useRef<HTMLDivElement>(null);
  useScrollToSelected(box, plan.parts, selectedId);
  return (
    <section className="parts-table" aria-label="Parts">
      <div className="scroll-box" ref={box}>
        <table className="data-table" aria-rowcount={plan.parts.length + 1}>
          <thead>
            <tr aria-rowindex={1}>
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
          <PartRows box={box} parts={plan.parts} selectedId={selectedId} />
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

/** A part that was added, copied or pointed at elsewhere is brought into sight. */
function useScrollToSelected(box: RefObject<HTMLElement | null>, parts: readonly Part[], selectedId: string): void {
  const index = parts.findIndex((part) => part.id === selectedId);
  useEffect(() => {
    box.current?.querySelector(`tr[data-row="${index}"]`)?.scrollIntoView({ block: 'nearest' });
  }, [box, index]);
}

interface PartRowsProps {
  readonly box: RefObject<HTMLElement | null>;
  readonly parts: readonly Part[];
  readonly selectedId: string;
}

/** The rows; of a long list those in sight. The selected one stays: what is being typed in it must not be lost by scrolling. */
function PartRows({ box, parts, selectedId }: PartRowsProps) {
  const { spares } = useEvaluation();
  const limits = useSizeLimits();
  const made = useMemo(() => new Map(spares.map((row) => [row.partId, row.made])), [spares]);
  const selected = parts.findIndex((part) => part.id === selectedId);
  const { rows, rowHeight } = useRowWindow(box, parts.length, selected);
  const getGapAbove = (place: number): number => (rows[place] ?? parts.length) - (rows[place - 1] ?? -1) - 1;
  return (
    <tbody>
      {rows.flatMap((index, place) => {
        const part = parts[index];
        if (part === undefined) return [];
        const gap = getGapAbove(place);
        const row = (
          <PartRow
            key={part.id}
            part={part}
            index={index}
            isSelected={index === selected}
            made={made.get(part.id) ?? null}
            limits={limits}
          />
        );
        return gap > 0 ? [<Gap key={`above ${part.id}`} height={gap * rowHeight} />, row] : [row];
      })}
      {getGapAbove(rows.length) > 0 && <Gap height={getGapAbove(rows.length) * rowHeight} />}
    </tbody>
  );
}

/** Stands for the rows that are out of sight. */
function Gap({ height }: { height: number }) {
  return <tr style={{ height }} />;
}

type SizeLimits = Readonly<Record<(typeof SIZES)[number][0], LengthEntryOptions>>;

/** What a size should not exceed; beyond it the field asks whether another unit was meant. */
function useSizeLimits(): SizeLimits {
  const known = useKnownShop();
  const viseId = usePlanFact((plan) => plan.holding.viseId);
  const materialId = usePlanFact((plan) => plan.stock.materialId);
  const opening = known.vises.find(({ id }) => id === viseId)?.maxOpening ?? 0;
  const widths = known.bars.filter((bar) => bar.materialId === materialId).map(({ width }) => width);
  const tallest = Math.max(0, ...widths);
  const { tableLength } = known.machine;
  return useMemo(() => {
    const upTo = (name: string, max: number): LengthEntryOptions =>
      max === 0 ? { allowZero: false } : { allowZero: false, limit: { name, max } };
    return {
      length: upTo('table length', tableLength),
      height: upTo('widest bar on offer', tallest),
      thickness: upTo('vise opening', opening),
    };
  }, [tableLength, tallest, opening]);
}

interface PartRowProps {
  readonly part: Part;
  readonly index: number;
  readonly isSelected: boolean;
  /** How many come out of the blanks; null where that is not known. */
  readonly made: number | null;
  readonly limits: SizeLimits;
}

const PartRow = memo(function PartRow({ part, index, isSelected, made, limits }: PartRowProps) {
  const { documents, view } = useApp();
  const name = part.name.trim() === '' ? `part ${index + 1}` : part.name;
  const select = (): void => view.select([{ kind: 'part', id: part.id }]);
  const copy = (): void => {
    const copied = copyPart(documents.store.getState().plan, part.id);
    documents.edit(`copy ${name}`, () => copied.plan);
    view.select([{ kind: 'part', id: copied.id }]);
  };
  return (
    <tr
      className={isSelected ? 'is-selected' : ''}
      data-row={index}
      aria-rowindex={index + 2}
      onFocus={select}
      aria-current={isSelected}
    >
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
      <td className="is-number">{made ?? '—'}</td>
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
});
