import { formatLength } from '../../shared/units/format';
import { formatQuantity } from '../../shared/units/quantity';
import { useApp, useEvaluation, useKnownShop, usePlan } from '../state/hooks';
import { exportPurchase } from '../state/imports';
import { Button } from '../ui/button';
import { SeverityMark } from '../ui/icon';
import { FigureButton } from './figure-button';
import { OrderProof } from './order-proof';

/** What to put on the order, and what it comes to. */
export function Purchase() {
  const app = useApp();
  const plan = usePlan();
  const known = useKnownShop();
  const { order, section } = useEvaluation();
  if (order === null || section === null) {
    return (
      <section className="order-section" aria-label="To buy">
        <h2>To buy</h2>
        <p className="empty">
          Nothing can be ordered yet: the plan needs a part and a bar that fits. The findings say what is missing.
        </p>
      </section>
    );
  }
  const money = (amount: number | null): string =>
    amount === null ? 'no price' : formatQuantity(amount, 'money', plan.units, { currency: known.currency });
  const fromRack = order.bars.filter((bar) => bar.kind === 'remnant').reduce((sum, bar) => sum + bar.times, 0);
  return (
    <section className="order-section" aria-label="To buy">
      <header className="order-head">
        <h2>To buy</h2>
        <div className="button-row">
          <Button onPress={() => void app.files.exportCutList()}>Export the cut list…</Button>
          <Button onPress={() => void exportPurchase(app)}>Export the purchase list…</Button>
        </div>
      </header>
      <div className="purchase">
        <ul className="plain-list purchase-lines">
          {order.purchase.map((line) => (
            <li key={`${line.barId}:${line.lengthId}`}>
              <strong className="purchase-count">{line.count}</strong>
              <span>
                {line.count === 1 ? 'bar' : 'bars'} of{' '}
                {known.bars.find((bar) => bar.id === line.barId)?.name ?? section.name},{' '}
                {formatLength(line.length, plan.units, { unit: true, trim: true })} long
              </span>
              <span className="purchase-cost">{money(line.cost)}</span>
            </li>
          ))}
          {order.purchase.length === 0 && <li>Nothing: all of it comes from the rack.</li>}
          {fromRack > 0 && <li className="purchase-rack">and {fromRack} from the rack</li>}
        </ul>
        <dl className="purchase-figures">
          <FigureButton name="Cost" figure={order.cost} figureKey="order-cost" />
          <FigureButton name="Weight" figure={order.massKg} figureKey="order-mass" />
          <FigureButton name="Yield by length" figure={order.yieldByLength} figureKey="yield-length" />
          <FigureButton name="Yield to blank" figure={order.yieldToBlank} figureKey="yield-blank" />
          <FigureButton name="Yield to part" figure={order.yieldToPart} figureKey="yield-part" />
        </dl>
      </div>
      <OrderProof order={order} />
      {order.unplaced.map((blank) => (
        <p key={blank.blankTemplateId} className="order-unplaced">
          <SeverityMark severity="stop" /> {blank.count} blanks have no bar: {blank.reason}
        </p>
      ))}
    </section>
  );
}
