import type { WayUp } from '../../shared/model/plan';
import { formatLength } from '../../shared/units/format';
import { useApp, useEvaluation, useKnownShop, usePlan } from '../state/hooks';
import { Button } from '../ui/button';
import type { Option } from '../ui/select-field';
import { DecisionSelect } from './decision-field';
import { PlanLength, PlanSelect, PlanText } from './plan-fields';
import { getNamedOptions } from './shop-options';

const WAYS_UP: readonly Option<WayUp>[] = [
  { id: 'onEdge', label: 'on edge' },
  { id: 'flat', label: 'flat' },
];

/** Which bar: metal, section, way up, and what was measured. */
export function BarPanel() {
  const { dialogs } = useApp();
  const plan = usePlan();
  const known = useKnownShop();
  const { section, sections } = useEvaluation();
  const bars = known.bars.filter((bar) => bar.materialId === plan.stock.materialId);
  const options = bars.map((bar) => {
    const row =
      sections.find((candidate) => candidate.barId === bar.id && candidate.fitsWorst) ??
      sections.find((candidate) => candidate.barId === bar.id);
    const about =
      row === undefined ? '' : row.fitsWorst ? `grip ${formatLength(row.gripLeast, plan.units)} at least` : row.reason;
    return { id: bar.id, label: bar.name, about };
  });
  const sizeClass = known.sizeClasses.find(
    (entry) => entry.id === bars.find((bar) => bar.id === section?.barId.value)?.sizeClassId,
  );
  const vise = known.vises.find(({ id }) => id === plan.holding.viseId);
  const measured = { mayBeEmpty: true, allowZero: false };
  return (
    <>
      <PlanSelect label="Material" path={['stock', 'materialId']} options={getNamedOptions(known.materials)} />
      <DecisionSelect label="Section" path={['stock', 'barId']} decided={section?.barId ?? null} options={options} />
      <DecisionSelect label="Way up" path={['stock', 'wayUp']} decided={section?.wayUp ?? null} options={WAYS_UP} />
      <p className="panel-remark">
        {sizeClass?.name ?? 'No size class'}
        {section !== null &&
          `: ${formatLength(section.height.least, plan.units)} to ${formatLength(section.height.most, plan.units)} high, ${formatLength(section.thickness.least, plan.units)} to ${formatLength(section.thickness.most, plan.units)} thick`}
      </p>
      <PlanLength
        label="Measured height"
        path={['stock', 'measuredHeight']}
        options={measured}
        placeholder="by table"
      />
      <PlanLength
        label="Measured thickness"
        path={['stock', 'measuredThickness']}
        options={vise === undefined ? measured : { ...measured, limit: { name: 'vise opening', max: vise.maxOpening } }}
        placeholder="by table"
      />
      <PlanLength
        label="Measured bow"
        path={['stock', 'measuredBow']}
        options={{ mayBeEmpty: true }}
        placeholder="by table"
      />
      <PlanText label="Heat mark" path={['stock', 'heatMark']} />
      <Button
        look="quiet"
        isDisabled={plan.parts.length === 0}
        onPress={() => void dialogs.ask('compare', { beside: '' })}
      >
        Compare with another bar…
      </Button>
    </>
  );
}
