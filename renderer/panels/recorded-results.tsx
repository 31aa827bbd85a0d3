import { nextId } from '../../shared/model/next-id';
import type { Part, RecordedResult } from '../../shared/model/plan';
import { useApp, useEvaluation, useKnownShop, usePlan, useShop } from '../state/hooks';
import { Button } from '../ui/button';
import { isBowKept, type MeasuredBow } from './kept-bow';
import { ListEditor } from './list-editor';
import { PlanLength, PlanSelect, PlanText } from './plan-fields';

const SIDES_CUT = [
  { id: 'both', label: 'both sides' },
  { id: 'one', label: 'one side' },
] as const;

/** How much a part bent when it was released, kept with the plan and, when asked, with the shop for the next one. */
export function RecordedResults({ part, name }: { part: Part; name: string }) {
  const { documents, start } = useApp();
  const plan = usePlan();
  const own = plan.recorded
    .map((result, index) => ({ result, index }))
    .filter(({ result }) => result.partId === part.id);
  const add = (): void => {
    const result: RecordedResult = { partId: part.id, date: start.today, bow: 0, sidesCut: 'both', note: '' };
    documents.edit(`record the bow of ${name}`, (before) => ({ ...before, recorded: [...before.recorded, result] }));
  };
  const remove = (row: number): void => {
    const index = own[row]?.index;
    if (index === undefined) return;
    documents.edit(`take out a recorded bow of ${name}`, (before) => ({
      ...before,
      recorded: before.recorded.toSpliced(index, 1),
    }));
  };
  return (
    <ListEditor
      title="After the job"
      about="The bow when it was released. Kept in the shop, it replaces the assumed bow in every plan of this metal."
      columns={['Date', 'Bow', 'Metal taken off', 'Note', 'For the next plan']}
      rows={own.map(({ index }) => ({ key: String(index), name: `bow ${index + 1}` }))}
      addLabel="Record a bow"
      onAdd={add}
      onRemove={remove}
      renderCells={(row) => {
        const { index = 0, result } = own[row] ?? {};
        const path = ['recorded', index];
        return [
          <PlanText key="date" label={`Date, bow ${row + 1}`} path={[...path, 'date']} hideLabel />,
          <PlanLength key="bow" label={`Bow ${row + 1} of ${name}`} path={[...path, 'bow']} hideLabel />,
          <PlanSelect
            key="sides"
            label={`Metal taken off, bow ${row + 1}`}
            path={[...path, 'sidesCut']}
            options={SIDES_CUT}
            hideLabel
          />,
          <PlanText key="note" label={`Note, bow ${row + 1}`} path={[...path, 'note']} hideLabel />,
          result === undefined ? null : <KeepInShop key="keep" part={part} result={result} />,
        ];
      }}
    />
  );
}

function KeepInShop({ part, result }: { part: Part; result: RecordedResult }) {
  const { documents } = useApp();
  const plan = usePlan();
  const shop = useShop();
  const known = useKnownShop();
  const { section } = useEvaluation();
  const bar = known.bars.find(({ id }) => id === section?.barId.value);
  const measurement: MeasuredBow = {
    date: result.date,
    materialId: plan.stock.materialId,
    sizeClassId: bar?.sizeClassId ?? '',
    length: part.length,
    height: part.height,
    bow: result.bow,
    sidesCut: result.sidesCut,
    note: result.note,
  };
  if (isBowKept(shop.bowMeasurements, measurement)) return <span>kept in the shop</span>;
  return (
    <Button
      className="small-button"
      isDisabled={result.bow <= 0}
      onPress={() =>
        documents.editShop('shop: keep a measured bow', (before) => ({
          ...before,
          bowMeasurements: [...before.bowMeasurements, { id: nextId(before.bowMeasurements, 'bow'), ...measurement }],
        }))
      }
    >
      Keep in the shop
    </Button>
  );
}
