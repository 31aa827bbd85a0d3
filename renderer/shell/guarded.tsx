import type { ReactNode } from 'react';
import { useApp, usePlan } from '../state/hooks';
import { Button } from '../ui/button';
import { ErrorBoundary } from '../ui/error-boundary';
import { SeverityMark } from '../ui/icon';

/** A view that may fail without taking the plan along: it says so, and every other view, undo and saving still work. */
export function Guarded({ name, children }: { name: string; children: ReactNode }) {
  const { documents, start } = useApp();
  const plan = usePlan();
  return (
    <ErrorBoundary
      resetKey={plan}
      renderFault={({ message, trace }, retry) => (
        <div className="view-fault" role="alert">
          <SeverityMark severity="stop" />
          <p>
            {name} could not be shown: {message}. Your plan is safe; save it, or undo the last step.
          </p>
          <div className="button-row">
            <Button onPress={documents.undo}>Undo the last step</Button>
            <Button look="primary" onPress={retry}>
              Try again
            </Button>
          </div>
          <details>
            <summary>Report to copy</summary>
            <textarea
              aria-label="Report to copy"
              readOnly
              rows={6}
              onFocus={(event) => event.currentTarget.select()}
              value={`Kerfgrip ${start.version}, ${name}: ${message}\n${trace}`}
            />
          </details>
        </div>
      )}
    >
      {children}
    </ErrorBoundary>
  );
}
