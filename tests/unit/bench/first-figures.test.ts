import { describe, expect, it } from 'vitest';
import { computeFirstFigures } from '../../../renderer/bench/first-figures';
import type { Reply, StartInfo } from '../../../shared/contract/host';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildEmptyPlan } from '../../../shared/model/defaults';
import { buildWorker } from './fake-worker';

const plan = buildEmptyPlan({ units: 'in', date: '', author: '', shop: defaultShop });
const start = { shop: defaultShop, opened: { plan } } as unknown as StartInfo;
const begin = Promise.resolve<Reply<StartInfo>>({ ok: true, value: start });
const refusal: Reply<StartInfo> = { ok: false, problem: { code: 'host-gone', sentence: 'Gone.', where: '' } };

describe('figures of the plan that a session begins with', () => {
  it('are asked of the worker for the plan and shop that the host gave', async () => {
    const fake = buildWorker();
    const figures = computeFirstFigures(begin, fake.worker);
    await begin;
    await Promise.resolve();
    expect(fake.asked).toEqual([{ plan, shop: defaultShop }]);
    fake.answer();
    expect(await figures).not.toBeNull();
  });

  it('are left to the page where the worker cannot be had, breaks, meets a fault, or the host refuses', async () => {
    expect(await computeFirstFigures(begin, null)).toBeNull();

    const broken = buildWorker();
    const ofBroken = computeFirstFigures(begin, broken.worker);
    broken.break();
    expect(await ofBroken).toBeNull();

    const faulty = buildWorker();
    const ofFaulty = computeFirstFigures(begin, faulty.worker);
    faulty.answer({ fault: 'no' });
    expect(await ofFaulty).toBeNull();

    const unasked = buildWorker();
    expect(await computeFirstFigures(Promise.resolve(refusal), unasked.worker)).toBeNull();
    expect(unasked.asked).toEqual([]);
  });
});
