import type { Decided } from '../../shared/engine/figure';
import type { SparesRow } from '../../shared/engine/results';
import type { Choice } from '../../shared/model/choice';
import { setAtPath } from '../../shared/model/edit';
import type { SpareRule } from '../../shared/model/plan';
import { formatNumber } from '../../shared/units/format-number';
import { DecisionField } from '../panels/decision-field';
import { PlanCheckbox, PlanQuantity, PlanSelect } from '../panels/plan-fields';
import { getNamedOptions } from '../panels/shop-options';
import { getLengthReader, getQuantityReader } from '../state/entry';
import { useApp, useEvaluation, useKnownShop, usePlan } from '../state/hooks';
import { type Option, SelectField } from '../ui/select-field';

const SPARE_KINDS: readonly Option<SpareRule['kind']>[] = [
  { id: 'none', label: 'none' },
  { id: 'byLength', label: 'by length', about: 'a share that grows with the part’s length' },
  { id: 'scrapRate', label: 'by scrap rate', about: 'enough good pieces with a chance you name' },
  { id: 'pieces', label: 'so many pieces' },
];

const FIRST_RULES: { readonly [K in SpareRule['kind']]: Extract<SpareRule, { kind: K }> } = {
  none: { kind: 'none' },
  byLength: { kind: 'byLength', setupPieces: 0 },
  scrapRate: { kind: 'scrapRate', scrapRate: 0.05, confidence: 0.9 },
  pieces: { kind: 'pieces', pieces: 1 },
};

/** Saw, ends, spares and what is kept: everything the order is worked out from. */
export function OrderInputs() {
  const plan = usePlan();
  const known = useKnownShop();
  const { gang, blanks, governingBlank } = useEvaluation();
  const saw = known.saws.find((entry) => entry.id === plan.order.sawId);
  const lengths = getLengthReader(plan.units, { mayBeEmpty: true });
  const fromSaw = (choice: Choice<number>, value: number | undefined, rule: string): Decided<number> | null =>
    value === undefined ? null : getRuleDecision(choice, value, rule, saw?.source ?? '');
  const perBlank = blanks[governingBlank]?.parts.length ?? 1;
  return (
    <div className="order-inputs">
      <PlanSelect label="Saw" path={['order', 'sawId']} options={getNamedOptions(known.saws)} />
      <DecisionField
        label="Squaring trim"
        path={['order', 'squaringTrim']}
        decided={fromSaw(
          plan.order.squaringTrim,
          saw?.squaringTrim,
          'The first cut that squares the bar’s end, as this saw needs it',
        )}
        reader={lengths}
      />
      <DecisionField
        label="Bad mill end"
        path={['order', 'badEnd']}
        decided={fromSaw(plan.order.badEnd, saw?.badEnd, 'What is not usable at each end of a new bar')}
        reader={lengths}
      />
      <DecisionField
        label="Stub"
        path={['order', 'stub']}
        decided={fromSaw(plan.order.stub, saw?.stub, 'The length of bar this saw cannot hold')}
        reader={lengths}
      />
      <DecisionField
        label="Drop worth keeping"
        path={['order', 'leastRemnant']}
        decided={getRuleDecision(
          plan.order.leastRemnant,
          known.rules.leastRemnant,
          'The shop’s rule for the shortest drop that is kept',
          'house rule, Shop: rules',
        )}
        reader={lengths}
      />
      <DecisionField
        label="Parts a blank"
        path={['partsPerBlank']}
        decided={
          gang.length === 0
            ? null
            : getRuleDecision(
                plan.partsPerBlank,
                perBlank,
                'The numbers in a row that cost least in bars and can be held, the largest where nothing is saved by fewer: see the table',
                'geometry',
              )
        }
        reader={getQuantityReader('count', plan.units, { field: 'Parts a blank', mayBeEmpty: true, min: 1, max: 100 })}
      />
      <PlanQuantity
        label="Most cutting patterns"
        path={['order', 'maxPatterns']}
        kind="count"
        placeholder="no limit"
        options={{ min: 1, max: 1000, mayBeEmpty: true }}
      />
      <PlanCheckbox label="Use what is on the rack" path={['order', 'useRack']} />
      <h3>Spares</h3>
      <SpareFields />
      <SparesTable />
    </div>
  );
}

function getRuleDecision(choice: Choice<number>, standing: number, rule: string, source: string): Decided<number> {
  const pinned = choice !== 'auto';
  return {
    value: pinned ? choice.pinned : standing,
    pinned,
    auto: standing,
    why: { rule, formula: '', inputs: [], source },
  };
}

function SpareFields() {
  const { documents } = useApp();
  const { spares } = usePlan().order;
  const path = ['order', 'spares'] as const;
  return (
    <>
      <SelectField
        label="Rule"
        options={SPARE_KINDS}
        value={spares.kind}
        onChange={(kind) =>
          documents.edit('change the rule for spares', (plan) => setAtPath(plan, path, FIRST_RULES[kind]))
        }
      />
      {spares.kind === 'byLength' && (
        <PlanQuantity label="Setup pieces" path={[...path, 'setupPieces']} kind="count" options={{ max: 1000 }} />
      )}
      {spares.kind === 'pieces' && (
        <PlanQuantity label="Pieces" path={[...path, 'pieces']} kind="count" options={{ max: 10_000 }} />
      )}
      {spares.kind === 'scrapRate' && (
        <>
          <PlanQuantity label="Scrap rate" path={[...path, 'scrapRate']} kind="fraction" options={{ max: 0.9 }} />
          <PlanQuantity
            label="Chance of enough"
            path={[...path, 'confidence']}
            kind="fraction"
            options={{ min: 0.5, max: 0.9999 }}
          />
        </>
      )}
    </>
  );
}

/** Never rounded up to certainty. */
function getChanceWords({ chanceOfEnough }: SparesRow): string {
  if (chanceOfEnough === null) return '—';
  const percent = Math.floor(chanceOfEnough.value * 1000) / 10;
  return `${formatNumber(percent, { decimals: 1 })} %`;
}

function SparesTable() {
  const plan = usePlan();
  const { spares } = useEvaluation();
  if (spares.length === 0) return null;
  const hasChance = spares.some((row) => row.chanceOfEnough !== null);
  return (
    <table className="small-table">
      {hasChance && (
        <caption className="spares-caption">
          Enough: the chance that as many as wanted come out well
          {plan.order.spares.kind === 'byLength' && ', if as many are scrapped as the rule stands for'}.
        </caption>
      )}
      <thead>
        <tr>
          <th scope="col">Part</th>
          <th scope="col" className="is-number">
            wanted
          </th>
          <th scope="col" className="is-number">
            blanks
          </th>
          <th scope="col" className="is-number">
            made
          </th>
          {hasChance && (
            <th scope="col" className="is-number">
              enough
            </th>
          )}
        </tr>
      </thead>
      <tbody>
        {spares.map((row) => (
          <tr key={row.partId} title={row.chanceOfEnough?.why.rule ?? row.why.why.rule}>
            <th scope="row">{plan.parts.find((part) => part.id === row.partId)?.name ?? row.partId}</th>
            <td className="is-number">{row.ordered}</td>
            <td className="is-number">{row.blanks}</td>
            <td className="is-number">
              <strong>{row.made}</strong>
            </td>
            {hasChance && <td className="is-number">{getChanceWords(row)}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
