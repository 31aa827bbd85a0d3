import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import type { Host, Reply, StartInfo } from '../shared/contract/host';
import { Root } from './shell/root';

/** Puts the page together around what the host begins with. */
export function showPage(element: HTMLElement, host: Host, first: Promise<Reply<StartInfo>>): void {
  createRoot(element).render(
    <StrictMode>
      <Root host={host} first={first} />
    </StrictMode>,
  );
}
