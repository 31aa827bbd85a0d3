import type { ResolvedTheme } from './theme';

/** A colour of tokens.css. */
export type Token = `--${string}`;

/**
 * Colours in a theme, for a canvas, which cannot read custom properties. The page itself takes on a new theme only after
 * all that is drawn with it, so it is in that theme for as long as they are read.
 */
export function readPalette<T extends Token>(tokens: readonly T[], theme: ResolvedTheme): Record<T, string> {
  const { dataset } = document.documentElement;
  const before = dataset.theme;
  const probe = document.createElement('span');
  document.body.append(probe);
  if (before !== theme) dataset.theme = theme;
  const colours = tokens.map((token) => {
    probe.style.color = `var(${token})`;
    return [token, getComputedStyle(probe).color] as const;
  });
  if (before === undefined) delete dataset.theme;
  else if (before !== theme) dataset.theme = before;
  probe.remove();
  return Object.fromEntries(colours) as Record<T, string>;
}
