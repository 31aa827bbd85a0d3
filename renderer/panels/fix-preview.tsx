import { useMemo } from 'react';
import { evaluate } from '../../shared/evaluate';
import { applyFix } from '../../shared/findings/apply-fix';
import type { Fix } from '../../shared/findings/finding';
import { FIGURE_KEYS, FIGURES, formatFigure } from '../shell/figures';
import { useEvaluation, usePlan, useShop } from '../state/hooks';

/** What a fix would do to the decision figures, worked out when somebody looks. */
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
  const settled = before.findings.length - after.findings.length;
  return (
    <span className="fix-preview">
      {changed.length === 0 && <span>The decision figures stay as they are.</span>}
      {changed.map((key) => (
        <span key={key}>
          {FIGURES[key].label}: {show(before, key)} → {show(after, key)}
        </span>
      ))}
      <span>
        {settled > 0 ? `${settled} fewer findings` : settled < 0 ? `${-settled} more findings` : 'as many findings'}
      </span>
    </span>
  );
}
