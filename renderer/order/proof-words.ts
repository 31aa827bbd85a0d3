import type { OrderResult } from '../../shared/engine/results';
import { getOpenCost } from '../../shared/evaluate/better-order';
import { formatNumber } from '../../shared/units/format-number';
import type { SearchStage } from '../state/order-search';

/** How sure it is that no order is cheaper, as a sentence or two. */
export function getProofWords(order: OrderResult, money: (amount: number) => string): string {
  const { bound, cost, proven, provenForBlanks } = order;
  if (proven) return 'No cheaper way to buy and cut it exists with these bars: proven.';
  if (bound === null || cost === null) return 'The best way found; it is not proven to take the fewest bars.';
  const open = getOpenCost(order);
  const share = formatNumber((100 * open) / cost.value, { decimals: 2 });
  const words = `The best way found. No way can cost less than ${money(bound)}, so ${money(open)} at most, ${share} %, could still be saved`;
  return provenForBlanks
    ? `${words}, and only by other numbers of parts on a blank: with these blanks it is proven the cheapest.`
    : `${words}.`;
}

/** What the search is at; '' while it rests. */
export const STAGE_WORDS: Readonly<Record<SearchStage, string>> = {
  resting: '',
  searching: 'Looking for a cheaper one; better ones are taken as they are found.',
  stopped: 'Stopped. The best found so far stands; what is exported is worked out to the end.',
  searched: 'Searched as far as is worth while.',
};
