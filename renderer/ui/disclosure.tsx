import type { ReactNode } from 'react';

/** A quiet fold for what is seldom wanted. */
export function Disclosure({ title, children }: { title: string; children: ReactNode }) {
  return (
    <details className="disclosure">
      <summary>{title}</summary>
      {children}
    </details>
  );
}
