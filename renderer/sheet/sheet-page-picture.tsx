import { useEffect, useRef } from 'react';
import type { SheetPage } from '../../shared/drawing/sheet/page';
import { toPageSvg } from '../../shared/drawing/sinks/sheet-svg';
import type { PaperSize } from '../../shared/model/plan';

interface Props {
  readonly page: SheetPage;
  readonly number: number;
  readonly count: number;
  readonly paper: PaperSize;
}

/** One page in its printed colours, as paper is white under any theme. Its text stays text, so that it can be found and read out. */
export function SheetPagePicture({ page, number, count, paper }: Props) {
  const element = useRef<HTMLLIElement>(null);
  useEffect(() => {
    const parsed = new DOMParser().parseFromString(toPageSvg(page), 'image/svg+xml');
    const svg = document.importNode(parsed.documentElement, true);
    svg.querySelector('title')?.remove();
    element.current?.replaceChildren(svg);
  }, [page]);
  return (
    <li ref={element} className={`sheet-paper is-${paper}`} aria-label={`Page ${number} of ${count}: ${page.name}`} />
  );
}
