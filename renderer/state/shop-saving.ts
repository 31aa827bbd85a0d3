import type { Host } from '../../shared/contract/host';
import type { Shop } from '../../shared/model/shop';

/** The shop is on file so long after the first change that is not, however fast changes follow on each other. */
const SAVE_AFTER_MS = 500;
/** Where it could not be saved, it is tried again after this. */
const RETRY_AFTER_MS = 5000;

/** Saves the shop library by itself. */
export interface ShopSaving {
  /** The shop, or what of it is on file, has changed. */
  handleChange(): void;
  stop(): void;
}

export interface ShopSavingParts {
  readonly host: Host;
  readonly getShop: () => Shop;
  /** The shop that is on file. */
  readonly getSaved: () => Shop;
  readonly setSaved: (shop: Shop) => void;
  /** Another window has saved another shop: the user chooses. */
  readonly askAboutOther: () => Promise<void>;
  /** Tells once that the shop is not saved, and why; '' that it is again. */
  readonly tellFault: (sentence: string) => void;
  /** Runs after a pause, and gives back how to call it off. */
  readonly later: (run: () => void, delayMs: number) => () => void;
}

export function createShopSaving(parts: ShopSavingParts): ShopSaving {
  let fault = '';
  let cancel: (() => void) | null = null;
  let isSaving = false;

  const schedule = (delayMs: number): void => {
    cancel ??= parts.later(() => {
      cancel = null;
      void save();
    }, delayMs);
  };

  const setFault = (sentence: string): void => {
    if (sentence !== fault) parts.tellFault(sentence);
    fault = sentence;
  };

  const save = async (): Promise<void> => {
    const shop = parts.getShop();
    if (isSaving || shop === parts.getSaved()) return;
    isSaving = true;
    const reply = await parts.host.call('saveShop', { shop });
    if (reply.ok) parts.setSaved(shop);
    const isOther = !reply.ok && reply.problem.code === 'file-changed';
    if (isOther) await parts.askAboutOther();
    isSaving = false;
    if (isOther) return;
    setFault(reply.ok ? '' : reply.problem.sentence);
    if (!reply.ok) schedule(RETRY_AFTER_MS);
    else if (parts.getShop() !== shop) schedule(SAVE_AFTER_MS);
  };

  return {
    handleChange() {
      if (parts.getShop() !== parts.getSaved()) schedule(SAVE_AFTER_MS);
    },
    stop() {
      cancel?.();
      cancel = null;
    },
  };
}
