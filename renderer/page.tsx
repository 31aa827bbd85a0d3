import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import type { Host } from '../shared/contract/host';
import { Root } from './shell/root';
import type { Beginning } from './shell/start-app';

/** Puts the page together around what the host begins with. */
export function showPage(element: HTMLElement, host: Host, first: Beginning): void {
  createRoot(element).render(
    <StrictMode>
      <Root host={host} first={first} />
    </StrictMode>,
  );
}
