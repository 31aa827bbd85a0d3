import type { ReactNode } from 'react';

/** A table that may be wider than its room. It takes the focus, so that the arrow keys scroll it where nothing in it does. */
export function ScrollBox({ label, children }: { label: string; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reachable by keyboard.
    <section className="scroll-box" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
