import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import type { Host, Reply, StartInfo } from '../shared/contract/host';
import type { Arranged } from './bench/bench-store';
import { Root } from './shell/root';
import { startApp } from './shell/start-app';

/** Puts the page together around what the host begins with, in place of the still picture where there is one. */
export function showPage(element: HTMLElement, host: Host, reply: Reply<StartInfo>, arranged: Arranged | null): void {
  const first = startApp(host, reply, arranged);
  createRoot(element).render(
    <StrictMode>
      <Root host={host} first={first} />
    </StrictMode>,
  );
}
