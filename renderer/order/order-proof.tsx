import type { OrderResult } from '../../shared/engine/results';
import { formatQuantity } from '../../shared/units/quantity';
import { useApp, useKnownShop, usePlan, useSearchStage } from '../state/hooks';
import { Button } from '../ui/button';
import { getProofWords, STAGE_WORDS } from './proof-words';

/** Whether the order is proven the cheapest, and the search that goes on while it is not. */
export function OrderProof({ order }: { order: OrderResult }) {
  const { orderSearch } = useApp();
  const { units } = usePlan();
  const { currency } = useKnownShop();
  const stage = useSearchStage();
  const money = (amount: number): string => formatQuantity(amount, 'money', units, { currency });
  return (
    <div className="order-proof">
      <p>{getProofWords(order, money)}</p>
      {!order.proven && (
        <div className="order-search">
          <span role="status">{STAGE_WORDS[stage]}</span>
          {stage === 'searching' && <Button onPress={orderSearch.stop}>Stop</Button>}
          {stage === 'stopped' && <Button onPress={orderSearch.resume}>Go on</Button>}
        </div>
      )}
    </div>
  );
}
