import { useEffect, useState } from 'react';
import type { Host, Reply, StartInfo } from '../../shared/contract/host';
import type { App } from '../state/app';
import { AppContext } from '../state/hooks';
import { Button } from '../ui/button';
import { SeverityMark } from '../ui/icon';
import { Frame } from './frame';
import { GuardedDialog, GuardedPage } from './guarded';
import { Notices } from './notices';
import { Questions } from './questions';
import { startApp } from './start-app';

type Start = { kind: 'waiting' } | { kind: 'failed'; sentence: string } | { kind: 'running'; app: App };

interface RootProps {
  readonly host: Host;
  /** The host's answer to the start of the page; each new attempt asks anew. */
  readonly first: Promise<Reply<StartInfo>>;
}

/** Waits for the host, then shows the planner. */
export function Root({ host, first }: RootProps) {
  const [start, setStart] = useState<Start>({ kind: 'waiting' });
  const [attempt, setAttempt] = useState(0);

  useEffect(() => {
    let isStale = attempt < 0;
    let stop = (): void => {};
    void startApp(host, attempt === 0 ? first : host.call('start', {})).then((result) => {
      if (isStale) return;
      if (!result.ok) return setStart({ kind: 'failed', sentence: result.problem.sentence });
      stop = result.value.files.watch();
      setStart({ kind: 'running', app: result.value });
      void result.value.files.offerRestore(result.value.start.unsaved);
    });
    return () => {
      isStale = true;
      stop();
    };
  }, [attempt, host, first]);

  if (start.kind === 'running') {
    return (
      <AppContext value={start.app}>
        <GuardedPage>
          <Frame />
        </GuardedPage>
        {/* Outside, so that saving can ask and answer even where the page has failed. */}
        <Notices />
        <GuardedDialog name="This window">
          <Questions />
        </GuardedDialog>
      </AppContext>
    );
  }
  if (start.kind === 'waiting') return <div className="start-screen" aria-busy="true" />;
  return (
    <main className="start-screen">
      <SeverityMark severity="stop" />
      <p role="alert">{start.sentence}</p>
      <Button look="primary" onPress={() => setAttempt(attempt + 1)}>
        Try again
      </Button>
    </main>
  );
}
