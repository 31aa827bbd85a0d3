import { useEffect, useMemo, useRef, useState } from 'react';
import type { View } from '../../shared/drawing/marks';
import { toSvg } from '../../shared/drawing/sinks/svg';

const CSS_PX_PER_MM = 96 / 25.4;
const USUAL_ROOT_PX = 16;

/** A large screen is looked at from further away: drawings grow with the page's text. */
function getPaperZoom(): number {
  return Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / USUAL_ROOT_PX;
}

export interface DrawingProps {
  /** What it shows, for those who cannot see it. */
  readonly label: string;
  /** Length along X that has to fit, in mm; furniture is sized for the width there is. */
  readonly length: number;
  /** Height that has to fit, in mm, where the drawing may be tall; 0 for as tall as it comes. */
  readonly height?: number;
  /** Room kept for dimensions and labels beside the length, and above and below, in mm of paper. */
  readonly margin?: number | { readonly across: number; readonly up: number };
  readonly build: (mmPerPaperMm: number) => View;
}

/** A view of the plan as the sheet will print it, in the colours of the theme. */
export function Drawing({ label, length, height = 0, margin = 24, build }: DrawingProps) {
  const element = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });

  useEffect(() => {
    const target = element.current;
    if (target === null) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry !== undefined) setSize({ width: entry.contentRect.width, height: entry.contentRect.height });
    });
    observer.observe(target);
    return () => observer.disconnect();
  }, []);

  const { across, up } = typeof margin === 'number' ? { across: margin, up: margin } : margin;
  const mmPerPaperMm = getScale(size, { length, height }, { across, up });
  const view = useMemo(() => (mmPerPaperMm > 0 ? build(mmPerPaperMm) : null), [build, mmPerPaperMm]);

  useEffect(() => {
    const target = element.current;
    if (target === null || view === null) return;
    const parsed = new DOMParser().parseFromString(
      toSvg(view, { scale: getPaperZoom() / view.mmPerPaperMm }),
      'image/svg+xml',
    );
    const svg = document.importNode(parsed.documentElement, true);
    svg.querySelector('title')?.remove();
    target.replaceChildren(svg);
  }, [view]);

  return <div ref={element} role="img" aria-label={label} className={`drawing${height > 0 ? ' is-filling' : ''}`} />;
}

function getScale(
  size: { width: number; height: number },
  shown: { length: number; height: number },
  margin: { across: number; up: number },
): number {
  const pxPerPaperMm = CSS_PX_PER_MM * getPaperZoom();
  const paperWidth = size.width / pxPerPaperMm - margin.across;
  if (paperWidth <= 0 || shown.length <= 0) return 0;
  const across = shown.length / paperWidth;
  const paperHeight = size.height / pxPerPaperMm;
  if (shown.height <= 0 || paperHeight <= 0) return across;
  return Math.max(across, shown.height / Math.max(paperHeight - margin.up, 10));
}
