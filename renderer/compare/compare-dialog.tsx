import { useMemo, useState } from 'react';
import type { Finding } from '../../shared/findings/finding';
import { resolveShop } from '../../shared/model/plan-library';
import { useApp, useFiles, usePlan, useShop } from '../state/hooks';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { SEVERITY_WORDS, SeverityMark } from '../ui/icon';
import { SelectField } from '../ui/select-field';
import { Checkbox } from '../ui/toggle';
import {
  type Compared,
  type ComparedGroup,
  type ComparedRow,
  compareFigures,
  getOwnFindings,
} from './compared-figures';
import { ComparedSections } from './compared-sections';
import { AS_IT_IS, buildVariants, getFirstBeside, type Variant } from './variants';

/** Two variants of the plan beside each other; the plan stays as it is until one of them is taken. */
export function CompareDialog({ beside, onClose }: { beside: string; onClose: () => void }) {
  const { documents } = useApp();
  const { units } = usePlan();
  const { currency } = useShop();
  const variants = useVariants();
  const [ids, setIds] = useState(() => ({ left: AS_IT_IS, right: beside === '' ? variants.first : beside }));
  const [isShort, setShort] = useState(false);
  const [leftVariant, left] = useCompared(variants.all, ids.left);
  const [rightVariant, right] = useCompared(variants.all, ids.right);
  const groups = useMemo(() => compareFigures(left, right, { units, currency }), [left, right, units, currency]);
  const differing = groups.reduce((sum, { rows }) => sum + rows.filter(isDifferent).length, 0);
  const take = ({ step, plan }: Variant): void => {
    onClose();
    documents.edit(step, () => plan);
  };
  return (
    <Dialog title="Two variants side by side" onClose={onClose} size="huge">
      <div className="compare-heads">
        {(['left', 'right'] as const).map((side) => {
          const variant = side === 'left' ? leftVariant : rightVariant;
          const label = side === 'left' ? 'Left' : 'Right';
          return (
            <div key={side} className="compare-head">
              <SelectField
                label={label}
                options={variants.all}
                value={variant.id}
                onChange={(id) => setIds({ ...ids, [side]: id })}
              />
              {variant.step === '' ? (
                <span className="compare-taken">stands in the plan</span>
              ) : (
                <Button look="primary" aria-label={`Take this one: ${variant.label}`} onPress={() => take(variant)}>
                  Take this one
                </Button>
              )}
            </div>
          );
        })}
      </div>
      <ComparedSections left={left} right={right} names={[leftVariant.label, rightVariant.label]} />
      <div className="compare-sum">
        <p role="status">
          {differing === 0 ? 'Both come to the same figures.' : `${differing} figures differ, each marked ≠.`}
        </p>
        <Checkbox label="Only what differs" value={isShort} onChange={setShort} />
      </div>
      <FigureTable groups={groups} isShort={isShort} names={[leftVariant.label, rightVariant.label]} />
      <OwnFindings left={left} right={right} />
    </Dialog>
  );
}

function useVariants(): { all: readonly Variant[]; first: string } {
  const { documents, evaluator } = useApp();
  const plan = usePlan();
  const shop = useShop();
  const { savedPlan } = useFiles();
  return useMemo(() => {
    const { evaluation } = evaluator(plan, shop);
    const all = buildVariants({
      plan,
      evaluation,
      past: documents.getPast(),
      onFile: savedPlan === plan ? null : savedPlan,
    });
    return { all, first: getFirstBeside(all, evaluation) };
  }, [documents, evaluator, plan, shop, savedPlan]);
}

/** A variant by its id, and what it comes to. */
function useCompared(variants: readonly Variant[], id: string): [Variant, Compared] {
  const { evaluator } = useApp();
  const shop = useShop();
  return useMemo(() => {
    const variant = variants.find((one) => one.id === id) ?? variants[0];
    if (variant === undefined) throw new RangeError('A plan is always a variant of itself.');
    const { plan } = variant;
    return [variant, { plan, evaluation: evaluator(plan, shop).evaluation, shop: resolveShop(plan, shop) }];
  }, [variants, id, evaluator, shop]);
}

const isDifferent = ({ difference }: ComparedRow): boolean => difference !== '';

function FigureTable(props: { groups: readonly ComparedGroup[]; isShort: boolean; names: readonly string[] }) {
  const { groups, isShort, names } = props;
  const shown = groups
    .map(({ title, rows }) => ({ title, rows: rows.filter((row) => !isShort || isDifferent(row)) }))
    .filter(({ rows }) => rows.length > 0);
  return (
    <table className="data-table compare-table">
      <caption className="visually-hidden">The figures of both</caption>
      <thead>
        <tr>
          <th scope="col">Figure</th>
          {names.map((name, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: there are two, known by their side.
            <th key={index} scope="col">
              {name}
            </th>
          ))}
          <th scope="col">The right one is</th>
        </tr>
      </thead>
      {shown.map(({ title, rows }) => (
        <tbody key={title}>
          <tr>
            <th scope="rowgroup" colSpan={4} className="compare-group">
              {title}
            </th>
          </tr>
          {rows.map((row) => (
            <FigureRow key={row.label} row={row} />
          ))}
        </tbody>
      ))}
    </table>
  );
}

function FigureRow({ row }: { row: ComparedRow }) {
  const differs = isDifferent(row);
  return (
    <tr className={differs ? 'is-different' : ''}>
      <th scope="row">{row.label}</th>
      {[row.left, row.right].map((cell, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: there are two, known by their side.
        <td key={index}>
          {differs ? <strong>{cell.text}</strong> : cell.text}
          {cell.about !== '' && <small> {cell.about}</small>}
        </td>
      ))}
      <td className="compare-difference">
        <span aria-hidden="true">{differs ? '≠' : '='}</span> {differs ? row.difference : 'the same'}
      </td>
    </tr>
  );
}

/** What is found of one and not of the other. */
function OwnFindings({ left, right }: { left: Compared; right: Compared }) {
  return (
    <div className="compare-findings">
      <FindingList title="Found only on the left" findings={getOwnFindings(left, right)} />
      <FindingList title="Found only on the right" findings={getOwnFindings(right, left)} />
    </div>
  );
}

function FindingList({ title, findings }: { title: string; findings: readonly Finding[] }) {
  return (
    <section aria-label={title}>
      <h3>{title}</h3>
      {findings.length === 0 && <p className="empty">Nothing.</p>}
      <ul className="plain-list">
        {findings.map((finding) => (
          <li key={finding.key}>
            <SeverityMark severity={finding.severity} />
            <span>
              <span className="visually-hidden">{SEVERITY_WORDS[finding.severity].one}: </span>
              {finding.sentence}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
