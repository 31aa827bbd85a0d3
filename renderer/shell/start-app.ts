import type { Host, Reply, StartInfo } from '../../shared/contract/host';
import { evaluate } from '../../shared/evaluate';
import { buildEmptyPlan } from '../../shared/model/defaults';
import type { ParsedPlan } from '../../shared/model/parse-plan';
import type { Plan } from '../../shared/model/plan';
import { collectLibrary } from '../../shared/model/plan-library';
import { beginBenchSession } from '../bench/bench-session';
import type { Arranged } from '../bench/bench-store';
import { createSearchWorker, startOrderSearch } from '../order/start-order-search';
import { ROOM_FOR_A_SECTION, TALL_WINDOW } from '../panels/tall-window';
import type { App } from '../state/app';
import { createApp } from '../state/create-app';
import { firstPicture } from './first-picture';
import { keepView, readKeptView } from './kept-view';
import { listenToWindow } from './window-requests';

/**
 * Puts the app together around what the host begins with.
 *
 * @param arranged how a still picture of the Bench lies already; null when there is none
 */
export function startApp(host: Host, reply: Reply<StartInfo>, arranged: Arranged | null = null): Reply<App> {
  if (!reply.ok) return reply;
  const start = reply.value;
  const app = createApp({
    host,
    start,
    evaluate,
    buildNewPlan: (shop, units) => buildEmptyPlan({ units, shop, date: start.today, author: start.userName }),
    withLibrary: (plan, shop) => ({ ...plan, library: collectLibrary(plan, shop) }),
    getRefusal: createRefusal(() => import('../../shared/model/parse-plan')),
    createSearchWorker,
    clock: () => performance.now(),
    later: (run, delayMs) => {
      const timer = window.setTimeout(run, delayMs);
      return () => window.clearTimeout(timer);
    },
    kept: { setupOpen: getFirstSections(), ...readKeptView() },
    onMac: /Mac/u.test(navigator.platform),
  });
  app.view.store.subscribe(keepView);
  listenToWindow(app);
  startOrderSearch(app);
  for (const remark of [...start.shopRemarks, ...start.opened.remarks]) app.view.notify('done', remark);
  beginBenchSession(app, arranged);
  app.files.watch();
  void app.files.offerRestore(start.unsaved);
  return { ok: true, value: app };
}

/** Checks plans by their schema, which is fetched once the first picture stands; until then every plan will do. */
function createRefusal(load: () => Promise<{ parsePlan: (plan: unknown) => ParsedPlan }>): (plan: Plan) => string {
  let parse: ((plan: unknown) => ParsedPlan) | null = null;
  firstPicture.then(load).then(
    ({ parsePlan }) => {
      parse = parsePlan;
    },
    // Without it a plan that cannot be saved is told of by the journal instead, a moment later.
    () => undefined,
  );
  return (plan) => {
    const read = parse?.(plan);
    if (read === undefined || read.ok) return '';
    const { sentence } = read.problem;
    return sentence.charAt(0).toLowerCase() + sentence.slice(1);
  };
}

/** The taller the window, the more of the first decisions stand open from the start. */
function getFirstSections(): string[] {
  const room = Math.floor((window.innerHeight - TALL_WINDOW) / ROOM_FOR_A_SECTION) + 2;
  return ['parts', 'bar', 'hold'].slice(0, Math.max(1, room));
}
