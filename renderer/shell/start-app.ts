import type { Reply } from '../../shared/contract/host';
import { evaluate } from '../../shared/evaluate';
import { buildEmptyPlan } from '../../shared/model/defaults';
import { collectLibrary } from '../../shared/model/plan-library';
import type { App } from '../state/app';
import { createApp } from '../state/create-app';
import { getHost } from '../state/host';
import { keepView, readKeptView } from './kept-view';
import { listenToWindow } from './window-requests';

/** Asks the host what to begin with and puts the app together around it. */
export async function startApp(): Promise<Reply<App>> {
  const host = getHost();
  const reply = await host.call('start', {});
  if (!reply.ok) return reply;
  const start = reply.value;
  const app = createApp({
    host,
    start,
    evaluate,
    buildNewPlan: (shop, units) => buildEmptyPlan({ units, shop, date: start.today, author: start.userName }),
    withLibrary: (plan, shop) => ({ ...plan, library: collectLibrary(plan, shop) }),
    clock: () => performance.now(),
    later: (run, delayMs) => {
      const timer = window.setTimeout(run, delayMs);
      return () => window.clearTimeout(timer);
    },
    kept: readKeptView(),
    onMac: /Mac/u.test(navigator.platform),
  });
  app.view.store.subscribe(keepView);
  listenToWindow(app);
  for (const remark of [...start.shopRemarks, ...start.opened.remarks]) app.view.notify('done', remark);
  return { ok: true, value: app };
}
