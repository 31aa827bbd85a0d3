import type { CutKind } from '../../shared/model/plan';
import { formatLength } from '../../shared/units/format';
import { formatQuantity } from '../../shared/units/quantity';
import { getLengthReader } from '../state/entry';
import { useApp, useEvaluation, useKnownShop, usePlan } from '../state/hooks';
import { getStepWords } from '../state/step-words';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import type { Option } from '../ui/select-field';
import { DecisionField } from './decision-field';
import { PlanLength, PlanQuantity, PlanSelect, PlanText } from './plan-fields';
import { getNamedOptions, getToolOptions } from './shop-options';

const KINDS: readonly Option<CutKind>[] = [
  { id: 'side', label: 'side milling' },
  { id: 'slot', label: 'slotting' },
  { id: 'plunge', label: 'plunging' },
  { id: 'drill', label: 'drilling' },
  { id: 'chamfer', label: 'chamfering' },
  { id: 'cutOff', label: 'cutting off' },
];

/** One cut: its tool, what it takes, how fast, and how far the tool stands out. */
export function CutDialog({ cutId, onClose }: { cutId: string; onClose: () => void }) {
  const { documents } = useApp();
  const plan = usePlan();
  const known = useKnownShop();
  const { reach } = useEvaluation();
  const index = plan.cuts.findIndex((cut) => cut.id === cutId);
  const cut = plan.cuts[index];
  if (cut === undefined) return null;
  const path = ['cuts', index] as const;
  const isCutOff = cut.kind === 'cutOff';
  const tools = getToolOptions(known.tools, plan.units);
  const toolOptions = isCutOff ? [{ id: '', label: 'the release cutter' }, ...tools] : tools;
  return (
    <Dialog
      title={cut.name === '' ? 'Cut' : cut.name}
      onClose={onClose}
      size="medium"
      footer={
        <>
          <Button
            look="danger"
            onPress={() => {
              onClose();
              documents.edit(`remove ${getStepWords(cut.name)}`, (before) => ({
                ...before,
                cuts: before.cuts.filter((candidate) => candidate.id !== cutId),
              }));
            }}
          >
            Remove this cut
          </Button>
          <Button look="primary" onPress={onClose}>
            Done
          </Button>
        </>
      }
    >
      <div className="field-columns">
        <div className="beside-marks">
          <PlanText label="Name" path={[...path, 'name']} of={cut.name} />
          <PlanSelect label="Kind" path={[...path, 'kind']} of={cut.name} options={KINDS} />
          <PlanSelect label="Tool" path={[...path, 'toolId']} of={cut.name} options={toolOptions} />
          <PlanSelect
            label="Holder"
            path={[...path, 'holderId']}
            of={cut.name}
            options={getNamedOptions(known.holders)}
          />
          <DecisionField
            label="Stick-out"
            path={[...path, 'stickOut']}
            decided={reach.find((row) => row.cutId === cutId)?.stickOut ?? null}
            reader={getLengthReader(plan.units, { mayBeEmpty: true, allowZero: false })}
          />
        </div>
        <div>
          {!isCutOff && <PlanLength label="Step-down" path={[...path, 'stepDown']} of={cut.name} />}
          <PlanLength label="Side engagement" path={[...path, 'sideEngagement']} of={cut.name} />
          <PlanLength label="Feed per tooth" path={[...path, 'feedPerTooth']} of={cut.name} />
          <PlanQuantity
            label="Cutting speed"
            path={[...path, 'cuttingSpeedMPerMin']}
            of={cut.name}
            kind="speed"
            options={{ max: 2000 }}
          />
          <CutFacts cutId={cutId} />
        </div>
      </div>
    </Dialog>
  );
}

function CutFacts({ cutId }: { cutId: string }) {
  const { units } = usePlan();
  const { cuts, reach } = useEvaluation();
  const force = cuts.find((row) => row.cutId === cutId);
  const row = reach.find((candidate) => candidate.cutId === cutId);
  if (force === undefined) return <p className="panel-remark">No force can be estimated for this cut yet.</p>;
  return (
    <dl className="facts">
      <Fact name="Spindle" value={formatQuantity(force.spindleRpm, 'spindleSpeed', units)} />
      <Fact name="Feed" value={formatQuantity(force.feedMmPerMin, 'feed', units)} />
      <Fact name="Side force, estimate" value={formatQuantity(force.sideForceN.value, 'force', units)} />
      <Fact name="Power, estimate" value={formatQuantity(force.powerKw.value, 'power', units)} />
      {row !== undefined && (
        <Fact name="Tool bends, estimate" value={formatLength(row.deflection.value, units, { unit: true })} />
      )}
      {row !== undefined && <Fact name="Step-downs" value={String(row.stepDowns)} />}
    </dl>
  );
}

function Fact({ name, value }: { name: string; value: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  );
}
