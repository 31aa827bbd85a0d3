import { getPinned } from '../../shared/model/choice';
import { setAtPath } from '../../shared/model/edit';
import type { PlacedTab, Release } from '../../shared/model/plan';
import type { CutOffCutter, Tool } from '../../shared/model/shop';
import { formatLength } from '../../shared/units/format';
import { getLengthReader } from '../state/entry';
import { useApp, useEvaluation, useKnownShop, usePlan, useShop } from '../state/hooks';
import { Button } from '../ui/button';
import type { Option } from '../ui/select-field';
import { DecisionField, DecisionSelect } from './decision-field';
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
  const { documents } = useApp();
  const plan = usePlan();
  const { release } = useEvaluation();
  const shop = useShop();
  const placed: PlacedTab[] = (release?.parts ?? []).flatMap((part) =>
    part.tabs.map((tab) => ({ partId: part.partId, x: tab.x })),
  );
  const pinned = getPinned(plan.release.tabs);
  const usesTabs = release?.keep.value === 'tabs' || pinned !== undefined;
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
      <div className="field">
        <span className="field-label">Tabs</span>
        <span className="field-inline">
          {(pinned ?? placed).length} {pinned === undefined ? 'placed by the planner' : 'placed by hand'}
          <Button
            look="quiet"
            className="small-button"
            onPress={() =>
              documents.edit(pinned === undefined ? 'pin the tabs' : 'leave the tabs to auto', (before) =>
                setAtPath(before, ['release', 'tabs'], pinned === undefined ? { pinned: placed } : 'auto'),
              )
            }
          >
            {pinned === undefined ? 'Pin' : 'Auto'}
          </Button>
        </span>
      </div>
    </>
  );
}
