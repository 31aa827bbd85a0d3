import type { KeptView, Theme, ViewState } from '../state/view';

const KEY = 'kerfgrip.view';
const THEMES: readonly Theme[] = ['system', 'light', 'dark'];

/** What of the view was kept from last time; nothing when the browser keeps nothing or it cannot be read. */
export function readKeptView(): Partial<KeptView> {
  try {
    return parseKeptView(JSON.parse(localStorage.getItem(KEY) ?? '{}'));
  } catch {
    return {};
  }
}

/** Keeps what the user chose; a panel folded only for want of room counts as open. */
export function keepView({ theme, leftOpen, rightOpen, foldedForRoom }: ViewState): void {
  const kept: KeptView = {
    theme,
    leftOpen: leftOpen || foldedForRoom === 'left',
    rightOpen: rightOpen || foldedForRoom === 'right',
  };
  try {
    localStorage.setItem(KEY, JSON.stringify(kept));
  } catch {
    // A browser that keeps nothing loses the theme, no work.
  }
}

function parseKeptView(kept: unknown): Partial<KeptView> {
  if (typeof kept !== 'object' || kept === null) return {};
  const { theme, leftOpen, rightOpen } = kept as Record<string, unknown>;
  const known = THEMES.find((candidate) => candidate === theme);
  return {
    ...(known === undefined ? {} : { theme: known }),
    ...(typeof leftOpen === 'boolean' ? { leftOpen } : {}),
    ...(typeof rightOpen === 'boolean' ? { rightOpen } : {}),
  };
}
