import type { ComponentProps } from 'react';
import type { SheetPage } from '../../shared/drawing/sheet/page';
import type { PaperSize } from '../../shared/model/plan';
import { SheetPagePicture } from './sheet-page-picture';

interface Props extends Omit<ComponentProps<'ol'>, 'children'> {
  readonly pages: readonly SheetPage[];
  readonly paper: PaperSize;
}

/** Pages as they will print, one below the other. */
export function SheetPages({ pages, paper, className = '', ...list }: Props) {
  return (
    <ol {...list} className={`sheet-pages ${className}`}>
      {pages.map((page, index) => (
        <SheetPagePicture
          // biome-ignore lint/suspicious/noArrayIndexKey: a page is known by its place in the sheet.
          key={index}
          page={page}
          number={index + 1}
          count={pages.length}
          paper={paper}
        />
      ))}
    </ol>
  );
}
