import type { SheetPage } from '../sheet/page';
import { escapeXml, renderSvgMarks } from './svg';

/** One page as an SVG file in true size. */
export function toPageSvg(page: SheetPage): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${page.width}mm" height="${page.height}mm" viewBox="0 0 ${page.width} ${page.height}" font-family="'IBM Plex Sans', 'DejaVu Sans', sans-serif">`,
    `<title>${escapeXml(page.name)}</title>`,
    `<rect width="${page.width}" height="${page.height}" fill="#fff"/>`,
    renderSvgMarks(page.marks, page.height, 1),
    '</svg>\n',
  ].join('\n');
}

/** Gap between the pages of one picture, mm. */
const PAGE_GAP = 8;

/** All pages below each other in one SVG file, in true size. */
export function toSheetSvg(pages: readonly SheetPage[]): string {
  const width = Math.max(0, ...pages.map((page) => page.width));
  const height = pages.reduce((sum, page) => sum + page.height + PAGE_GAP, -PAGE_GAP);
  let top = 0;
  const groups = pages.map((page, index) => {
    const group = [
      `<g id="page-${index + 1}" transform="translate(0 ${Number(top.toFixed(4))})">`,
      `<title>${escapeXml(page.name)}</title>`,
      `<rect width="${page.width}" height="${page.height}" fill="#fff"/>`,
      renderSvgMarks(page.marks, page.height, 1),
      '</g>',
    ].join('\n');
    top += page.height + PAGE_GAP;
    return group;
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" font-family="'IBM Plex Sans', 'DejaVu Sans', sans-serif">`,
    ...groups,
    '</svg>\n',
  ].join('\n');
}
