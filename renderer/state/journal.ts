import type { FileHandle, Host } from '../../shared/contract/host';
import type { Plan } from '../../shared/model/plan';

/** Work is in the journal so long after the first change that is not, however fast changes follow on each other. */
const WRITE_AFTER_MS = 300;
/** Where it could not be written, it is tried again after this. */
const RETRY_AFTER_MS = 5000;

/** Keeps the open plan in the host's journal while it is not on file. */
export interface Journal {
  /** The plan or its file has changed. */
  handleChange(): void;
  /** Writes the plan as it is now. @returns true when it is kept */
  write(): Promise<boolean>;
  /** What is in the journal is on file by now, or given up. */
  discard(): Promise<void>;
  stop(): void;
}

export interface JournalParts {
  readonly host: Host;
  readonly getPlan: () => Plan;
  /** The plan as it is kept, with all that it needs. */
  readonly withLibrary: (plan: Plan) => Plan;
  readonly getFile: () => FileHandle | null;
  readonly isUnsaved: () => boolean;
  /** While something is dragged, the plan is on its way and nothing to come back to. */
  readonly isGesturing: () => boolean;
  /** Tells once that work is not being kept, and why; '' that it is again. */
  readonly tellFault: (sentence: string) => void;
  /** Runs after a pause, and gives back how to call it off. */
  readonly later: (run: () => void, delayMs: number) => () => void;
}

export function createJournal(parts: JournalParts): Journal {
  const { host } = parts;
  /** What the journal holds. */
  let kept: { plan: Plan; file: FileHandle | null } | null = null;
  let fault = '';
  let cancel: (() => void) | null = null;
  /** Calls go out one after the other, so that none overtakes the one before it. */
  let last: Promise<unknown> = Promise.resolve();

  const inTurn = <T>(task: () => Promise<T>): Promise<T> => {
    const result = last.then(task, task);
    last = result;
    return result;
  };

  const isKept = (): boolean => kept !== null && kept.plan === parts.getPlan() && kept.file === parts.getFile();

  const setFault = (sentence: string): void => {
    if (sentence !== fault) parts.tellFault(sentence);
    fault = sentence;
  };

  const schedule = (delayMs: number): void => {
    cancel ??= parts.later(() => {
      cancel = null;
      if (parts.isGesturing()) schedule(WRITE_AFTER_MS);
      else if (parts.isUnsaved()) void write();
    }, delayMs);
  };

  const unschedule = (): void => {
    cancel?.();
    cancel = null;
  };

  const write = (): Promise<boolean> =>
    inTurn(async () => {
      if (isKept()) return true;
      const [plan, file] = [parts.getPlan(), parts.getFile()];
      const reply = await host.call('writeJournal', { plan: parts.withLibrary(plan), file });
      setFault(reply.ok ? '' : reply.problem.sentence);
      if (reply.ok) kept = { plan, file };
      else schedule(RETRY_AFTER_MS);
      // Saved or given up while it was written.
      if (!parts.isUnsaved()) await drop();
      return reply.ok;
    });

  const drop = async (): Promise<void> => {
    kept = null;
    await host.call('discardJournal', {});
  };

  return {
    write,
    discard: () => inTurn(drop),
    handleChange() {
      if (!parts.isUnsaved()) {
        unschedule();
        if (kept !== null) void inTurn(drop);
      } else if (!isKept()) {
        schedule(WRITE_AFTER_MS);
      }
    },
    stop: unschedule,
  };
}
