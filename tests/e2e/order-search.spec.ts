import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import type { SearchReply } from '../../renderer/state/order-search';
import { serializePlan } from '../../shared/model/serialize';
import { buildLeverPlan } from '../unit/support/lever-plan';
import { expect, readFigure, showView, test } from './support/planner';

/** The search may take its time; the machine may be busy. */
const SEARCHED = { timeout: 120_000 };

declare global {
  interface Window {
    /** While true, every answer of a search reaches the page as one on the way, 1.00 or more short of its proof. */
    holdSearch?: boolean;
  }
}

function writePlan(folder: string): string {
  const path = join(folder, 'levers.kgplan');
  writeFileSync(path, serializePlan(buildLeverPlan()));
  return path;
}

async function holdSearches(page: Page): Promise<void> {
  await page.addInitScript(() => {
    window.holdSearch = true;
    const RealWorker = window.Worker;
    window.Worker = class extends RealWorker {
      override set onmessage(handle: ((event: MessageEvent) => void) | null) {
        super.onmessage = (event: MessageEvent) => {
          const reply = event.data as SearchReply;
          const order = reply.evaluation?.order;
          if (window.holdSearch !== true || !order?.cost) return handle?.(event);
          order.proven = false;
          order.bound = Math.min(order.bound ?? 0, order.cost.value - 1);
          handle?.(new MessageEvent('message', { data: { ...reply, kind: 'better' } }));
        };
      }
    };
  });
}

const getProof = (page: Page) => page.getByRole('region', { name: 'To buy' });

test('a cheaper order, or the proof that there is none, is found beside the page', async ({ planner }) => {
  test.setTimeout(180_000);
  const page = await planner.open(writePlan(planner.home));
  await showView(page, 'Order');
  await expect(getProof(page)).toContainText(
    'No cheaper way to buy and cut it exists with these bars: proven.',
    SEARCHED,
  );
  await expect(getProof(page).getByRole('button', { name: 'Stop' })).toHaveCount(0);
  expect(await readFigure(page, 'order-cost')).toBe(await readFigure(page, 'cost'));
});

test('while the search works its better answers are taken; stopped, the best so far stands; it goes on when asked', async ({
  planner,
  page,
}) => {
  test.setTimeout(240_000);
  await holdSearches(page);
  await planner.open(writePlan(planner.home));
  await showView(page, 'Order');
  const proof = getProof(page);
  const status = proof.getByRole('status');
  await expect(status).toHaveText('Looking for a cheaper one; better ones are taken as they are found.', SEARCHED);
  // The last answer is 1.00 short of its proof, whatever it costs.
  await expect(proof).toContainText(/so 1\.00 USD at most, 0\.\d\d %, could still be saved/, SEARCHED);
  await expect(status).toHaveText('Looking for a cheaper one; better ones are taken as they are found.');
  const cost = await readFigure(page, 'order-cost');
  const words = await proof.getByText('The best way found').textContent();

  await proof.getByRole('button', { name: 'Stop' }).click();
  await expect(status).toContainText('Stopped. The best found so far stands');
  expect(await readFigure(page, 'order-cost')).toBe(cost);
  expect(await proof.getByText('The best way found').textContent()).toBe(words);

  await page.evaluate(() => {
    window.holdSearch = false;
  });
  await proof.getByRole('button', { name: 'Go on' }).click();
  await expect(proof).toContainText('proven.', SEARCHED);
  expect(await readFigure(page, 'order-cost')).toBe(cost);
});
