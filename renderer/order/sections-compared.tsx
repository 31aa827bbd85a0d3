import { useState } from 'react';
import type { SectionRow } from '../../shared/engine/results';
import { getMoneyDecimals } from '../../shared/units/currency';
import { formatLength } from '../../shared/units/format';
import { formatNumber } from '../../shared/units/format-number';
import { formatQuantity } from '../../shared/units/quantity';
import { getSectionId, getSectionName, takeSection } from '../compare/variants';
import { useApp, useEvaluation, usePlan, useShop } from '../state/hooks';
import { Button, IconButton } from '../ui/button';
import { SeverityMark } from '../ui/icon';
import { ScrollBox } from '../ui/scroll-box';
import { Checkbox, Segments } from '../ui/toggle';
import { CostGrip } from './cost-grip';
import { computeGripPrice } from './grip-price';
import { getSortedSections, type SectionOrder } from './sort-sections';

const ORDERS = [
  { id: 'cost', label: 'cost' },
  { id: 'grip', label: 'grip' },
  { id: 'mass', label: 'weight' },
] as const;

/** Every bar on offer, both ways up, through the whole plan: one row each, and one press takes it. */
export function SectionsCompared() {
  const { parts } = usePlan();
  const { sections } = useEvaluation();
  const [order, setOrder] = useState<SectionOrder>('cost');
  const [showAll, setShowAll] = useState(false);
  const unfit = sections.filter((row) => !row.fitsWorst).length;
  const rows = getSortedSections(sections, order).filter((row) => showAll || row.fitsWorst || row.chosen);
  return (
    <section className="order-section" aria-label="Sections compared">
      <header className="order-head">
        <h2>Sections compared</h2>
        <div className="button-row">
          {unfit > 0 && <Checkbox label={`Show the ${unfit} that do not fit`} value={showAll} onChange={setShowAll} />}
          <span className="segments-label">Sort by</span>
          <Segments label="Sort by" options={ORDERS} value={order} onChange={setOrder} />
        </div>
      </header>
      {sections.length === 0 ? (
        <p className="empty">
          {parts.length === 0
            ? 'Every bar on offer will be compared here once there is a part.'
            : 'No bar is on offer in this material. Add some in the Shop, or choose another material.'}
        </p>
      ) : (
        <>
          <GripPrice />
          <div className="compared">
            <ScrollBox label="Table of the sections">
              <SectionTable rows={rows} />
            </ScrollBox>
            <CostGrip />
          </div>
        </>
      )}
    </section>
  );
}

/** What the grip costs: the cheapest bar that keeps the grip wanted beside the cheapest that fits at all. */
function GripPrice() {
  const { units } = usePlan();
  const { currency } = useShop();
  const { sections, seat } = useEvaluation();
  const price = computeGripPrice(sections, seat?.targetGrip.value ?? 0);
  if (price === null) return null;
  const { cheapest, keeping, extra } = price;
  const wanted = formatLength(seat?.targetGrip.value ?? 0, units, { unit: true });
  return (
    <p className="grip-price">
      {extra === 0
        ? `The cheapest bar that fits, ${cheapest.name}, also grips ${wanted} or more.`
        : `Gripping ${wanted} or more costs ${formatQuantity(extra, 'money', units, { currency })} over the cheapest bar that fits: ${keeping.name} instead of ${cheapest.name}.`}
    </p>
  );
}

function SectionTable({ rows }: { rows: readonly SectionRow[] }) {
  const { units } = usePlan();
  const { currency } = useShop();
  return (
    <table className="data-table sections-table">
      <thead>
        <tr>
          <th scope="col">Bar</th>
          <th scope="col">Fits</th>
          <th scope="col" className="is-number">
            Grip, {units}
          </th>
          <th scope="col">Seat</th>
          <th scope="col" className="is-number">
            Hold
          </th>
          <th scope="col" className="is-number">
            Bars
          </th>
          <th scope="col" className="is-number">
            Cost, {currency}
          </th>
          <th scope="col" className="is-number">
            Weight
          </th>
          <th scope="col" className="is-number">
            Yield
          </th>
          <th scope="col">
            <span className="visually-hidden">Take it</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <SectionLine key={getSectionId(row)} row={row} />
        ))}
      </tbody>
    </table>
  );
}

function SectionLine({ row }: { row: SectionRow }) {
  const { documents, dialogs } = useApp();
  const { units } = usePlan();
  const { currency } = useShop();
  const name = getSectionName(row);
  const take = (): void => documents.edit(`take the ${name} bar`, (plan) => takeSection(plan, row));
  return (
    <tr className={getRowClass(row)} aria-current={row.chosen}>
      <th scope="row">
        {row.name}
        <small>{row.wayUp === 'flat' ? ' flat' : ' on edge'}</small>
      </th>
      <td className="verdict-cell">
        <Verdict row={row} />
      </td>
      <td className="is-number">{row.fitsNominal ? <strong>{formatLength(row.grip, units)}</strong> : '—'}</td>
      <td>{row.seat}</td>
      <td className="is-number">
        {row.holdFactor === null ? '—' : `× ${formatNumber(row.holdFactor, { decimals: 1 })}`}
      </td>
      <td className="is-number">{row.bars ?? '—'}</td>
      <td className="is-number">
        <strong>{row.cost === null ? '—' : formatNumber(row.cost, { decimals: getMoneyDecimals(currency) })}</strong>
      </td>
      <td className="is-number">{row.massKg === null ? '—' : formatQuantity(row.massKg, 'mass', units)}</td>
      <td className="is-number">
        {row.yieldToPart === null ? '—' : `${formatNumber(row.yieldToPart * 100, { decimals: 1 })} %`}
      </td>
      <td className="take-cell">
        {row.chosen ? (
          <strong>taken</strong>
        ) : (
          <span className="take-buttons">
            <IconButton
              icon="compare"
              label={`Compare ${name}`}
              onPress={() => void dialogs.ask('compare', { beside: getSectionId(row) })}
            />
            <Button className="small-button" aria-label={`Take ${name}`} onPress={take}>
              Take
            </Button>
          </span>
        )}
      </td>
    </tr>
  );
}

const BEATEN = 'Another bar grips as well for no more';

/** A bar that fits, but that nobody need look at. */
function isBeaten({ dominated, chosen, fitsWorst }: SectionRow): boolean {
  return dominated && !chosen && fitsWorst;
}

function getRowClass(row: SectionRow): string {
  if (row.chosen) return 'is-chosen';
  if (!row.fitsWorst) return 'is-unfit';
  return isBeaten(row) ? 'is-dominated' : '';
}

function Verdict({ row }: { row: SectionRow }) {
  if (row.verdict === 'good') {
    return <span className="verdict is-good">✓ good{isBeaten(row) && <small title={BEATEN}>, but beaten</small>}</span>;
  }
  const text = row.fitsWorst ? row.weakest : row.reason;
  return (
    <span className={`verdict is-${row.verdict}`} title={text}>
      <SeverityMark severity={row.verdict} /> {text === '' ? row.verdict : text}
      {isBeaten(row) && <small title={BEATEN}>; and beaten</small>}
    </span>
  );
}
