import { useState } from 'react';
import type { Host, Reply } from '../../shared/contract/host';
import type { App } from '../state/app';
import { AppContext } from '../state/hooks';
import { Button } from '../ui/button';
import { SeverityMark } from '../ui/icon';
import { Frame } from './frame';
import { GuardedDialog, GuardedPage } from './guarded';
import { Notices } from './notices';
import { Questions } from './questions';
import { startApp } from './start-app';

interface RootProps {
  readonly host: Host;
  /** The app, or why there is none yet. */
  readonly first: Reply<App>;
}

/** The planner; where the host has refused to begin, its sentence and another attempt. */
export function Root({ host, first }: RootProps) {
  const [app, setApp] = useState(first);
  const [isWaiting, setWaiting] = useState(false);
  const tryAgain = async (): Promise<void> => {
    setWaiting(true);
    setApp(startApp(host, await host.call('start', {})));
    setWaiting(false);
  };
  if (app.ok) {
    return (
      <AppContext value={app.value}>
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
  if (isWaiting) return <div className="start-screen" aria-busy="true" />;
  return (
    <main className="start-screen">
      <SeverityMark severity="stop" />
      <p role="alert">{app.problem.sentence}</p>
      <Button look="primary" onPress={() => void tryAgain()}>
        Try again
      </Button>
    </main>
  );
}
