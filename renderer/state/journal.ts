import type { FileHandle, Host } from '../../shared/contract/host';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';

/** Work is in the journal so long after the first change that is not, however fast changes follow on each other. */
const WRITE_AFTER_MS = 300;
/** Where it could not be written, it is tried again after this. */
const RETRY_AFTER_MS = 5000;

/** Keeps the open plan, and the shop, in the host's journal while they are not on file. */
export interface Journal {
  /** The plan, the shop or what of them is on file has changed. */
  handleChange(): void;
  /** Writes them as they are now. @returns true when they are kept */
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
  /** The shop library; null where it is on file as it is. */
  readonly getUnsavedShop: () => Shop | null;
  readonly isPlanUnsaved: () => boolean;
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
  let kept: { plan: Plan; file: FileHandle | null; shop: Shop | null } | null = null;
  let fault = '';
  let cancel: (() => void) | null = null;
  /** Calls go out one after the other, so that none overtakes the one before it. */
  let last: Promise<unknown> = Promise.resolve();

  const inTurn = <T>(task: () => Promise<T>): Promise<T> => {
    const result = last.then(task, task);
    last = result;
    return result;
  };

  const isUnsaved = (): boolean => parts.isPlanUnsaved() || parts.getUnsavedShop() !== null;
  const isKept = (): boolean =>
    kept !== null &&
    kept.plan === parts.getPlan() &&
    kept.file === parts.getFile() &&
    kept.shop === parts.getUnsavedShop();

  const setFault = (sentence: string): void => {
    if (sentence !== fault) parts.tellFault(sentence);
    fault = sentence;
  };

  const schedule = (delayMs: number): void => {
    cancel ??= parts.later(() => {
      cancel = null;
      if (parts.isGesturing()) schedule(WRITE_AFTER_MS);
      else if (isUnsaved()) void write();
    }, delayMs);
  };

  const unschedule = (): void => {
    cancel?.();
    cancel = null;
  };

  const write = (): Promise<boolean> =>
    inTurn(async () => {
      if (isKept()) return true;
      const [plan, file, shop] = [parts.getPlan(), parts.getFile(), parts.getUnsavedShop()];
      const reply = await host.call('writeJournal', { plan: parts.withLibrary(plan), file, shop });
      setFault(reply.ok ? '' : reply.problem.sentence);
      if (reply.ok) kept = { plan, file, shop };
      else schedule(RETRY_AFTER_MS);
      // Saved or given up while it was written.
      if (!isUnsaved()) await drop();
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
      if (!isUnsaved()) {
        unschedule();
        if (kept !== null) void inTurn(drop);
      } else if (!isKept()) {
        schedule(WRITE_AFTER_MS);
      }
    },
    stop: unschedule,
  };
}
