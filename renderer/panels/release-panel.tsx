import type { Decided } from '../../shared/engine/figure';
import { getPinned } from '../../shared/model/choice';
import type { PlacedTab, Release } from '../../shared/model/plan';
import type { CutOffCutter, Tool } from '../../shared/model/shop';
import { formatLength } from '../../shared/units/format';
import { getLengthReader } from '../state/entry';
import { useEvaluation, useKnownShop, usePlan, useShop } from '../state/hooks';
import type { Option } from '../ui/select-field';
import { ChoiceMark, DecisionField, DecisionSelect, useChoice } from './decision-field';
import { PlanSelect, PlanText } from './plan-fields';
import { getToolOptions } from './shop-options';

const SIDES: readonly Option<Release['sides']>[] = [
  { id: 'both', label: 'both sides' },
  { id: 'fixedSide', label: 'fixed jaw side' },
  { id: 'movingSide', label: 'moving jaw side' },
];

const KEEPS = [
  { id: 'rib', label: 'a rib' },
  { id: 'tabs', label: 'tabs' },
] as const;

/** How the piece comes off: cutter, clearance, rib or tabs. */
export function ReleasePanel() {
  const plan = usePlan();
  const known = useKnownShop();
  const { release } = useEvaluation();
  const reader = getLengthReader(plan.units, { mayBeEmpty: true });
  const cutters = known.tools.filter(isCutter);
  const say = (mm: number): string => formatLength(mm, plan.units);
  return (
    <>
      <DecisionSelect
        label="Cutter"
        path={['release', 'cutterId']}
        decided={release?.cutterId ?? null}
        options={getToolOptions(cutters, plan.units)}
      />
      <DecisionField
        label="Clearance"
        path={['release', 'clearance']}
        decided={release?.clearance ?? null}
        reader={reader}
      />
      <PlanSelect label="Cut from" path={['release', 'sides']} options={SIDES} />
      <DecisionSelect label="Leave" path={['release', 'keep']} decided={release?.keep ?? null} options={KEEPS} />
      <DecisionField
        label="Rib aimed at"
        path={['release', 'ribTarget']}
        decided={release?.ribTarget ?? null}
        reader={reader}
      />
      <TabFields />
      {release !== null && (
        <p className="panel-remark">
          reaches {say(release.reach.value)}, takes {say(release.depthPerSide.value)} a side
        </p>
      )}
      <PlanText label="Break and dress" path={['release', 'dressNote']} placeholder="how the rib comes off" />
    </>
  );
}

function isCutter(tool: Tool): tool is CutOffCutter {
  return tool.kind === 'keySeat' || tool.kind === 'slittingSaw';
}

function TabFields() {
  const plan = usePlan();
  const { release } = useEvaluation();
  const shop = useShop();
  const usesTabs = release?.keep.value === 'tabs' || plan.release.tabs !== 'auto';
  if (!usesTabs) return null;
  const length = plan.release.tabLength;
  return (
    <>
      <DecisionField
        label="Tab length"
        path={['release', 'tabLength']}
        decided={{
          value: getPinned(length) ?? shop.rules.tabLength,
          pinned: length !== 'auto',
          auto: shop.rules.tabLength,
          why: {
            rule: 'The shop’s rule for the length of a tab',
            formula: '',
            inputs: [],
            source: 'house rule, Shop: tab length',
          },
        }}
        reader={getLengthReader(plan.units, { mayBeEmpty: true, allowZero: false })}
      />
      <PlacedTabs />
    </>
  );
}

/** How many tabs there are and who placed them; pinned, they are moved on the Bench. */
function PlacedTabs() {
  const plan = usePlan();
  const { release } = useEvaluation();
  const placed: PlacedTab[] = (release?.parts ?? []).flatMap((part) =>
    part.tabs.map((tab) => ({ partId: part.partId, x: tab.x })),
  );
  const pinned = getPinned(plan.release.tabs);
  // While they are pinned, where auto would place them is not worked out.
  const show = (tabs: readonly PlacedTab[]): string =>
    tabs.length === 0 ? 'places of its own' : `${tabs.length} ${tabs.length === 1 ? 'tab' : 'tabs'}`;
  const decided: Decided<PlacedTab[]> = {
    value: pinned ?? placed,
    pinned: pinned !== undefined,
    auto: pinned === undefined ? placed : [],
    why: {
      rule: 'The fewest tabs that keep every span and both ends within the limit, stand clear of holes and of where no tab may be, and carry the force',
      formula: '',
      inputs: (pinned ?? placed).map(({ partId, x }) => ({
        name: `${plan.parts.find((part) => part.id === partId)?.name ?? partId}, from its left end`,
        value: x,
        kind: 'length',
      })),
      source: 'geometry, the limits of the shop’s house rules',
    },
  };
  const label = 'Tabs';
  const control = useChoice({ label, path: ['release', 'tabs'], decided }, show);
  return (
    <div className="decision-row">
      <div className="field">
        <span className="field-label">{label}</span>
        <span className="field-inline">
          {decided.value.length} {decided.pinned ? 'placed by hand' : 'placed by the planner'}
        </span>
      </div>
      <ChoiceMark {...control} label={label} decided={decided} show={show} />
    </div>
  );
}
