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
  return (
    <ErrorBoundary
      resetKey={usePlan()}
      renderFault={(fault, retry) => (
        <FaultView name={name} fault={fault}>
          <Button look="primary" onPress={retry}>
            Try again
          </Button>
        </FaultView>
      )}
    >
      {children}
    </ErrorBoundary>
  );
}

/** The whole page, where what failed is in no view: the plan can still be saved and undone. */
export function GuardedPage({ children }: { children: ReactNode }) {
  const { files, view } = useApp();
  const save = async (): Promise<void> => {
    if (await files.save()) view.notify('done', 'The plan is saved.');
  };
  return (
    <ErrorBoundary
      resetKey={usePlan()}
      renderFault={(fault, retry) => (
        <main className="fault-page">
          <FaultView name="The planner" fault={fault}>
            <Button onPress={retry}>Try again</Button>
            <Button look="primary" onPress={() => void save()}>
              Save
            </Button>
          </FaultView>
        </main>
      )}
    >
      {children}
    </ErrorBoundary>
  );
}

/** Says that something could not be shown, and what can be done; the children are further buttons. */
function FaultView({ name, fault, children }: { name: string; fault: Fault; children: ReactNode }) {
  const { documents } = useApp();
  return (
    <div className="view-fault" role="alert">
      <SeverityMark severity="stop" />
      <p>
        {name} could not be shown: {fault.message}. Your plan is safe; save it, or undo the last step.
      </p>
      <div className="button-row">
        <Button onPress={documents.undo}>Undo the last step</Button>
        {children}
      </div>
      <FaultReport name={name} fault={fault} />
    </div>
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
