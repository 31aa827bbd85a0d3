import type { SectionRow } from '../../shared/engine/results';
import { formatLength } from '../../shared/units/format';
import { formatNumber } from '../../shared/units/format-number';
import type { LengthUnits } from '../../shared/units/length-units';
import { useEvaluation, useKnownShop, usePlan } from '../state/hooks';
import { computeCostGrip } from './cost-grip-layout';

const WIDTH = 380;
const HEIGHT = 250;
const FRAME = { left: 44, right: WIDTH - 12, top: 26, bottom: HEIGHT - 34, lineHeight: 13 };
const TICK = { in: 2.54, mm: 1 } as const;

/** The choice the job turns on, as a picture: what more grip costs. */
export function CostGrip() {
  const plan = usePlan();
  const known = useKnownShop();
  const { sections } = useEvaluation();
  const jawSet = known.jawSets.find((entry) => entry.id === plan.holding.jawSetId);
  const limits = jawSet === undefined ? [] : [jawSet.leastFlatGrip, jawSet.comfortableGrip];
  const layout = computeCostGrip(sections, limits, TICK[plan.units], FRAME);
  if (layout.points.length === 0) return null;
  const label = layout.points
    .map(({ row }) => `${row.name}: grip ${formatLength(row.grip, plan.units)}, cost ${row.cost}`)
    .join('; ');
  return (
    <figure className="cost-grip">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={`Cost against grip. ${label}`}>
        {layout.yTicks.map(({ at, value }) => (
          <g key={value}>
            <line className="cost-grid" x1={FRAME.left} x2={FRAME.right} y1={at} y2={at} />
            <text className="cost-tick" x={FRAME.left - 6} y={at + 4} textAnchor="end">
              {formatNumber(value, { decimals: 0 })}
            </text>
          </g>
        ))}
        {layout.xTicks.map(({ at, value }) => (
          <text key={value} className="cost-tick" x={at} y={FRAME.bottom + 15} textAnchor="middle">
            {formatLength(value, plan.units, { decimals: plan.units === 'in' ? 1 : 0 })}
          </text>
        ))}
        <line className="cost-axis" x1={FRAME.left} x2={FRAME.right} y1={FRAME.bottom} y2={FRAME.bottom} />
        {jawSet !== undefined && (
          <>
            <GripLimit x={layout.getX(jawSet.leastFlatGrip)} word="least" />
            {jawSet.comfortableGrip > jawSet.leastFlatGrip && (
              <GripLimit x={layout.getX(jawSet.comfortableGrip)} word="comfortable" />
            )}
          </>
        )}
        {layout.points.map(({ row, x, y, anchor, labelY, hasLabel }) => (
          <g
            key={`${row.barId}:${row.wayUp}`}
            className={`cost-point${row.chosen ? ' is-chosen' : ''}${row.dominated ? ' is-dominated' : ''}`}
          >
            {row.chosen && <circle className="cost-ring" cx={x} cy={y} r={8} />}
            {row.wayUp === 'flat' ? (
              <rect x={x - 5.5} y={y - 2.5} width={11} height={5} />
            ) : (
              <rect x={x - 2.5} y={y - 5.5} width={5} height={11} />
            )}
            {hasLabel && (
              <text x={anchor === 'start' ? x + 12 : x - 12} y={labelY + 4} textAnchor={anchor}>
                {getSizeName(row, plan.units)}
              </text>
            )}
          </g>
        ))}
        <text className="cost-tick" x={FRAME.left} y={12}>
          cost of the order, {known.currency}
        </text>
        <text className="cost-tick" x={FRAME.right} y={HEIGHT - 4} textAnchor="end">
          grip, {plan.units}
        </text>
      </svg>
      <figcaption>
        Upright marks stand on edge, lying marks lie flat; hollow ones are beaten: another bar grips as well for no
        more.
      </figcaption>
    </figure>
  );
}

/** The section's two sides; the metal is the same for all. */
function getSizeName(row: SectionRow, units: LengthUnits): string {
  const say = (mm: number): string => formatLength(mm, units, { fractions: 16, trim: true });
  return `${say(Math.min(row.height, row.thickness))} × ${say(Math.max(row.height, row.thickness))}`;
}

function GripLimit({ x, word }: { x: number; word: string }) {
  return (
    <>
      <line className="cost-limit" x1={x} x2={x} y1={FRAME.top - 6} y2={FRAME.bottom} />
      <text className="cost-tick" x={x + 3} y={FRAME.top}>
        {word}
      </text>
    </>
  );
}
