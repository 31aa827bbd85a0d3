/** A colour of tokens.css. */
export type Token = `--${string}`;

/**
 * Colours in a theme, for a canvas, which cannot read custom properties. The theme is passed in, since the page itself
 * takes on a new one only after all that is drawn with it.
 */
export function readPalette<T extends Token>(tokens: readonly T[], theme: 'light' | 'dark'): Record<T, string> {
  const probe = document.createElement('span');
  probe.style.colorScheme = theme;
  document.body.append(probe);
  const colours = tokens.map((token) => {
    probe.style.color = `var(${token})`;
    return [token, getComputedStyle(probe).color] as const;
  });
  probe.remove();
  return Object.fromEntries(colours) as Record<T, string>;
}
