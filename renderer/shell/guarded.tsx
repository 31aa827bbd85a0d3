import type { ReactNode } from 'react';
import { useStore } from 'zustand';
import { dismissQuestion } from '../state/dialogs';
import { useApp, usePlan } from '../state/hooks';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { ErrorBoundary, type Fault } from '../ui/error-boundary';
import { SeverityMark } from '../ui/icon';

interface GuardedProps {
  /** What it is called where it says that it failed. */
  readonly name: string;
  readonly children: ReactNode;
}

/** A view that may fail without taking the plan along: it says so, and every other view, undo and saving still work. */
export function Guarded({ name, children }: GuardedProps) {
  const { documents } = useApp();
  return (
    <ErrorBoundary
      resetKey={usePlan()}
      renderFault={(fault, retry) => (
        <div className="view-fault" role="alert">
          <SeverityMark severity="stop" />
          <p>
            {name} could not be shown: {fault.message}. Your plan is safe; save it, or undo the last step.
          </p>
          <div className="button-row">
            <Button onPress={documents.undo}>Undo the last step</Button>
            <Button look="primary" onPress={retry}>
              Try again
            </Button>
          </div>
          <FaultReport name={name} fault={fault} />
        </div>
      )}
    >
      {children}
    </ErrorBoundary>
  );
}

/** A dialog that may fail: it says so and can be closed, which answers its question as Escape does. */
export function GuardedDialog({ name, children }: GuardedProps) {
  const { dialogs } = useApp();
  const open = useStore(dialogs.store, (state) => state.open);
  const close = (): void => dismissQuestion(open);
  return (
    <ErrorBoundary
      resetKey={open}
      renderFault={(fault) => (
        <Dialog title={`${name} could not be shown`} onClose={close} isAlert footer={<CloseButton onPress={close} />}>
          <p>{fault.message}. Your plan is safe: save it, and go on without this window.</p>
          <FaultReport name={name} fault={fault} />
        </Dialog>
      )}
    >
      {children}
    </ErrorBoundary>
  );
}

function CloseButton({ onPress }: { onPress: () => void }) {
  return (
    <Button look="primary" autoFocus onPress={onPress}>
      Close
    </Button>
  );
}

/** The whole page, where what failed is in no view: the plan can still be saved and undone. */
export function GuardedPage({ children }: { children: ReactNode }) {
  const { documents, files, view } = useApp();
  const name = 'The planner';
  const save = async (): Promise<void> => {
    if (await files.save()) view.notify('done', 'The plan is saved.');
  };
  return (
    <ErrorBoundary
      resetKey={usePlan()}
      renderFault={(fault, retry) => (
        <main className="view-fault is-page" role="alert">
          <SeverityMark severity="stop" />
          <p>
            {name} could not be shown: {fault.message}. Your plan is safe; save it, or undo the last step.
          </p>
          <div className="button-row">
            <Button onPress={documents.undo}>Undo the last step</Button>
            <Button onPress={retry}>Try again</Button>
            <Button look="primary" onPress={() => void save()}>
              Save
            </Button>
          </div>
          <FaultReport name={name} fault={fault} />
        </main>
      )}
    >
      {children}
    </ErrorBoundary>
  );
}

/** What whoever mends it needs to know, to be copied whole. */
function FaultReport({ name, fault: { message, trace } }: { name: string; fault: Fault }) {
  const { start } = useApp();
  return (
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
  );
}
