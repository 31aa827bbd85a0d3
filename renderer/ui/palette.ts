/** A colour of tokens.css. */
export type Token = `--${string}`;

/**
 * Colours as the page shows them now, for a canvas, which cannot read custom properties. Read them again when the
 * theme changes (`useResolvedTheme`).
 */
export function readPalette<T extends Token>(tokens: readonly T[]): Record<T, string> {
  const probe = document.createElement('span');
  document.body.append(probe);
  const colours = tokens.map((token) => {
    probe.style.color = `var(${token})`;
    return [token, getComputedStyle(probe).color] as const;
  });
  probe.remove();
  return Object.fromEntries(colours) as Record<T, string>;
}
