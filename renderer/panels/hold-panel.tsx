import type { Decided, Why } from '../../shared/engine/figure';
import { getPinned, isPinned } from '../../shared/model/choice';
import { setAtPath } from '../../shared/model/edit';
import type { ClampChoice, SeatChoice } from '../../shared/model/plan';
import type { ParallelPair } from '../../shared/model/shop';
import { formatLength } from '../../shared/units/format';
import { getLengthReader, getQuantityReader } from '../state/entry';
import { useApp, useEvaluation, useKnownShop, usePlan } from '../state/hooks';
import { type Option, SelectField } from '../ui/select-field';
import { Segments } from '../ui/toggle';
import { ChoiceMark, DecisionField, DecisionSelect, useChoice } from './decision-field';
import { PlanQuantity, PlanSelect } from './plan-fields';
import { getNamedOptions } from './shop-options';
import { ViseCentres } from './vise-centres';

const SURFACES = [
  { id: 'ground', label: 'ground' },
  { id: 'machined', label: 'machined' },
  { id: 'asSupplied', label: 'as supplied' },
] as const;

/** How the bar is held: vises, jaws, seat and clamp. */
export function HoldPanel() {
  const plan = usePlan();
  const known = useKnownShop();
  const { seat, vises, section, blanks, governingBlank } = useEvaluation();
  const lengths = getLengthReader(plan.units, { mayBeEmpty: true });
  const blank = blanks[governingBlank];
  const jawSet = known.jawSets.find((entry) => entry.id === plan.holding.jawSetId);
  const isShelf = seat?.choice.value.kind === 'shelf';
  return (
    <>
      <PlanSelect label="Vise" path={['holding', 'viseId']} options={getNamedOptions(known.vises)} />
      <PlanSelect label="Jaws" path={['holding', 'jawSetId']} options={getNamedOptions(known.jawSets)} />
      <DecisionField
        label="Vises"
        path={['holding', 'viseCount']}
        decided={vises?.count ?? null}
        reader={getQuantityReader('count', plan.units, { field: 'Vises', mayBeEmpty: true, min: 1, max: 24 })}
      />
      <ViseCentres />
      <SeatField />
      {isShelf && (
        <>
          <DecisionField
            label="Shelf depth"
            path={['holding', 'shelfDepth']}
            decided={seat?.shelfDepth ?? null}
            reader={lengths}
          />
          <DecisionField label="Spacer" path={['holding', 'spacer']} decided={seat?.spacer ?? null} reader={lengths} />
          <DecisionField
            label="Spacer height"
            path={['holding', 'spacerHeight']}
            decided={seat?.spacerHeight ?? null}
            reader={lengths}
          />
        </>
      )}
      <DecisionField
        label="Grip wanted"
        path={['holding', 'targetGrip']}
        decided={
          jawSet === undefined
            ? null
            : getPlainDecision(
                plan.holding.targetGrip,
                jawSet.comfortableGrip,
                'The grip at which these jaws are comfortable',
                jawSet.source,
              )
        }
        reader={lengths}
      />
      <DecisionField
        label="Bar from stop"
        path={['holding', 'blankX']}
        decided={
          blank === undefined
            ? null
            : getPlainDecision(plan.holding.blankX, blank.x, 'Where the bar lies best over the vises', 'geometry')
        }
        reader={getLengthReader(plan.units, { mayBeEmpty: true, allowNegative: true })}
      />
      <DecisionSelect
        label="Gripped faces"
        path={['holding', 'grippedSurface']}
        decided={
          section === null
            ? null
            : getPlainDecision(
                plan.holding.grippedSurface,
                section.surface,
                'How the bar’s faces come, by its size class',
                'size class of the bar',
              )
        }
        options={SURFACES}
      />
      <ClampFields />
    </>
  );
}

function getPlainDecision<T>(choice: 'auto' | { pinned: T }, standing: T, rule: string, source: string): Decided<T> {
  const why: Why = { rule, formula: '', inputs: [], source };
  const pinned = getPinned(choice);
  return { value: pinned ?? standing, pinned: isPinned(choice), auto: standing, why };
}

function SeatField() {
  const plan = usePlan();
  const known = useKnownShop();
  const { seat } = useEvaluation();
  const pairs = known.parallels;
  const show = (choice: SeatChoice): string => getSeatName(choice, pairs, (mm) => formatLength(mm, plan.units));
  const control = useChoice<SeatChoice>(
    { label: 'Seat', path: ['holding', 'seat'], decided: seat?.choice ?? null },
    show,
  );
  const options: Option<string>[] = [
    { id: 'shelf', label: 'jaw shelf', about: 'milled into soft jaws' },
    { id: 'bed', label: 'vise bed', about: 'the bar stands on the bed' },
    ...pairs.flatMap((pair) =>
      getPairOptions(
        pair,
        seat?.parallels.find((row) => row.parallelId === pair.id),
        (mm) => formatLength(mm, plan.units),
      ),
    ),
  ];
  return (
    <div className="decision-row">
      <SelectField
        label="Seat"
        options={options}
        value={control.value === undefined ? null : getSeatId(control.value)}
        isAuto={!control.pinned}
        placeholder="—"
        onChange={(id) => control.pin(parseSeatId(id))}
        onToggleKey={control.toggle}
      />
      <ChoiceMark {...control} label="Seat" decided={seat?.choice ?? null} show={show} />
    </div>
  );
}

function getPairOptions(
  pair: ParallelPair,
  row: { grip: number; fits: boolean; reason: string } | undefined,
  say: (mm: number) => string,
): Option<string>[] {
  const about = row === undefined ? '' : row.fits ? `grip ${say(row.grip)}` : row.reason;
  const single = {
    id: `parallels:${pair.id}:1`,
    label: `one parallel ${say(pair.height)} × ${say(pair.thickness)}`,
    about,
  };
  const both = { id: `parallels:${pair.id}:2`, label: `parallels ${say(pair.height)} × ${say(pair.thickness)}`, about };
  return pair.count === 2 ? [both, single] : [single];
}

function getSeatId(seat: SeatChoice): string {
  return seat.kind === 'parallels' ? `parallels:${seat.parallelId}:${seat.count}` : seat.kind;
}

function parseSeatId(id: string): SeatChoice {
  if (id === 'bed') return { kind: 'bed' };
  const match = /^parallels:(.*):([12])$/u.exec(id);
  if (match === null) return { kind: 'shelf' };
  return { kind: 'parallels', parallelId: match[1] ?? '', count: match[2] === '1' ? 1 : 2 };
}

function getSeatName(seat: SeatChoice, pairs: readonly ParallelPair[], say: (mm: number) => string): string {
  if (seat.kind === 'shelf') return 'jaw shelf';
  if (seat.kind === 'bed') return 'vise bed';
  const pair = pairs.find((candidate) => candidate.id === seat.parallelId);
  const name = pair === undefined ? seat.parallelId : `${say(pair.height)} × ${say(pair.thickness)}`;
  return seat.count === 1 ? `one parallel ${name}` : `parallels ${name}`;
}

const CLAMP_KINDS: readonly Option<ClampChoice['kind']>[] = [
  { id: 'torque', label: 'torque' },
  { id: 'force', label: 'force' },
];

function ClampFields() {
  const { documents } = useApp();
  const plan = usePlan();
  const { vises } = useEvaluation();
  const { clamp } = plan.holding;
  const force = vises?.clampForceN.value ?? 20_000;
  const switchTo = (kind: ClampChoice['kind']): void =>
    documents.edit(`give the clamp by ${kind}`, (before) =>
      setAtPath(
        before,
        ['holding', 'clamp'],
        kind === 'force' ? { kind, clampForceN: Math.round(force) } : { kind, handleTorqueNm: 60, nutFactor: null },
      ),
    );
  return (
    <>
      <div className="field">
        <span className="field-label">Clamp by</span>
        <Segments label="Clamp by" options={CLAMP_KINDS} value={clamp.kind} onChange={switchTo} />
      </div>
      {clamp.kind === 'force' ? (
        <PlanQuantity
          label="Clamp force"
          path={['holding', 'clamp', 'clampForceN']}
          kind="force"
          options={{ max: 200_000 }}
        />
      ) : (
        <>
          <PlanQuantity
            label="Handle torque"
            path={['holding', 'clamp', 'handleTorqueNm']}
            kind="torque"
            options={{ max: 1000 }}
          />
          <ClampForceLine />
        </>
      )}
    </>
  );
}

function ClampForceLine() {
  const plan = usePlan();
  const { vises } = useEvaluation();
  if (vises === null) return null;
  const reader = getQuantityReader('force', plan.units);
  return (
    <p className="panel-remark">
      clamp force {reader.show(vises.clampForceN.value)} {reader.unit}, counted on{' '}
      {reader.show(vises.countedClampForceN)}
    </p>
  );
}
