import { useMemo } from 'react';
import { evaluate } from '../../shared/evaluate';
import { applyFix } from '../../shared/findings/apply-fix';
import type { Finding, Fix } from '../../shared/findings/finding';
import { FIGURE_KEYS, FIGURES, formatFigure } from '../shell/figures';
import { useEvaluation, usePlan, useShop } from '../state/hooks';

/** More than these are counted. */
const MOST_SENTENCES = 2;

/** What a fix would do: the decision figures before and after, what it settles and what it brings. Worked out when somebody looks. */
export function FixPreview({ fix }: { fix: Fix }) {
  const plan = usePlan();
  const shop = useShop();
  const before = useEvaluation();
  const after = useMemo(() => evaluate(applyFix(plan, fix), shop), [plan, shop, fix]);
  const show = (evaluation: typeof before, key: (typeof FIGURE_KEYS)[number]): string => {
    const figure = evaluation.figures[key];
    return figure === null ? '—' : formatFigure(figure, plan.units, shop.currency);
  };
  const changed = FIGURE_KEYS.filter((key) => show(before, key) !== show(after, key));
  return (
    <span className="fix-preview">
      {changed.length === 0 && <span>The decision figures stay as they are.</span>}
      {changed.map((key) => (
        <span key={key}>
          {FIGURES[key].label}: {show(before, key)} → {show(after, key)}
        </span>
      ))}
      <SentenceList title="Settles" findings={getMissing(before.findings, after.findings)} />
      <SentenceList title="Brings" findings={getMissing(after.findings, before.findings)} />
    </span>
  );
}

function SentenceList({ title, findings }: { title: string; findings: readonly Finding[] }) {
  const rest = findings.length - MOST_SENTENCES;
  return findings.length === 0 ? null : (
    <span className="fix-sentences">
      {findings.slice(0, MOST_SENTENCES).map((finding) => (
        <span key={finding.key}>
          {title}: {finding.sentence}
        </span>
      ))}
      {rest > 0 && <span>{`… and ${rest} more.`}</span>}
    </span>
  );
}

function getMissing(findings: readonly Finding[], from: readonly Finding[]): Finding[] {
  const kept = new Set(from.map(({ key }) => key));
  return findings.filter(({ key }) => !kept.has(key));
}
