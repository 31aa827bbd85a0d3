import { useEffect } from 'react';
import type { Action } from '../state/actions';
import type { App } from '../state/app';
import { useApp, useView } from '../state/hooks';
import { BENCH_ACTIONS, type BenchAction } from './bench-actions';
import { getActionContext } from './bench-keys';
import type { BenchSession } from './bench-session';
import { showEverything } from './bench-store';
import { useBenchSession } from './use-bench';

/** Offers what the Bench can do in the list of commands, for as long as it is shown. */
export function useBenchActions(): void {
  const app = useApp();
  const session = useBenchSession();
  const isShown = useView(({ tab }) => tab === 'bench');
  useEffect(() => {
    const offered = BENCH_ACTIONS.map((action) => buildAppAction(action, session, isShown));
    return app.actions.add([...offered, ...getViewActions(session)]);
  }, [app, session, isShown]);
}

function buildAppAction(action: BenchAction, session: BenchSession, isShown: boolean): Action<App> {
  const { isForAll = false } = action;
  return {
    id: action.id,
    group: 'Bench',
    ...(isForAll && isShown ? { shortcuts: [action.key], inFields: false } : {}),
    label: (app) => {
      const context = getActionContext(app, session);
      return context === null ? action.id : action.label(context);
    },
    isEnabled: (app) => {
      const context = getActionContext(app, session);
      return context !== null && (isForAll || context.first !== null) && action.isOffered(context);
    },
    perform: (app) => {
      const context = getActionContext(app, session);
      if (context !== null) action.perform(context);
    },
  };
}

const ZOOM_STEP = 1.25;

function getViewActions({ store, controller }: BenchSession): Action<App>[] {
  return [
    {
      id: 'bench.fit',
      label: 'Show everything on the Bench',
      group: 'Bench',
      shortcuts: ['F'],
      perform: () => showEverything(store),
    },
    {
      id: 'bench.zoomIn',
      label: 'Zoom in along the bar',
      group: 'Bench',
      shortcuts: ['+', '='],
      perform: () => controller.zoom('elevation', ZOOM_STEP),
    },
    {
      id: 'bench.zoomOut',
      label: 'Zoom out along the bar',
      group: 'Bench',
      shortcuts: ['-'],
      perform: () => controller.zoom('elevation', 1 / ZOOM_STEP),
    },
  ];
}
