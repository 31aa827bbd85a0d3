import { formatLength } from '../units/format';
import type { LengthUnits } from '../units/length-units';
import type { Gap } from './close-gaps';
import type { Found } from './found';
import type { Loop } from './loop';
import type { OutlineRemark } from './outline';
import { getMiddle, type Point } from './point';

const MOST_PLACES = 100;

/** What was changed, left out or doubtful, the worst first. */
export function buildRemarks(found: Found, windows: readonly Loop[], units: LengthUnits): OutlineRemark[] {
  const show = (mm: number): string => formatLength(mm, units, { unit: true });
  const remarks: OutlineRemark[] = [];
  const add = (
    code: OutlineRemark['code'],
    severity: OutlineRemark['severity'],
    places: readonly Point[],
    count: number,
    sentence: string,
  ): void => {
    if (count > 0) remarks.push({ code, severity, sentence, count, places: places.slice(0, MOST_PLACES) });
  };
  const { gapsOpen, gapsClosed, outer, loose, crossings, junctions, outside } = found;
  add('no-outline', 'block', [], outer === null ? 1 : 0, 'Nothing in the drawing closes to an outline.');
  add('too-many', 'block', [], found.isCut ? 1 : 0, 'The drawing has more curves than are read, so some are missing.');
  add(
    'crossings',
    'block',
    crossings,
    crossings.length,
    `${getCount(crossings.length, 'place')} where the outline crosses itself or another.`,
  );
  add(
    'gaps-open',
    outer === null ? 'block' : 'look',
    getGapPlaces(gapsOpen),
    gapsOpen.length,
    describeGaps(gapsOpen, 'left open', show),
  );
  add('gaps-closed', 'look', getGapPlaces(gapsClosed), gapsClosed.length, describeGaps(gapsClosed, 'closed', show));
  add(
    'junctions',
    'look',
    junctions,
    junctions.length,
    `${getCount(junctions.length, 'place')} where more than two lines meet; see whether the outline takes the right way.`,
  );
  add(
    'duplicates',
    'note',
    found.duplicatePlaces,
    found.duplicates,
    `${getCount(found.duplicates, 'line or curve', 'lines or curves')} drawn twice, taken once.`,
  );
  add(
    'windows',
    'look',
    windows.map(getMiddleOfLoop),
    windows.length,
    `${getCount(windows.length, 'opening')} neither round nor a slot: not taken into the part, so enter what it takes away yourself.`,
  );
  add(
    'outside',
    'look',
    outside.map(getMiddleOfLoop),
    outside.length,
    `${getCount(outside.length, 'closed shape')} outside the outline, left out.`,
  );
  add(
    'loose',
    'note',
    loose.map(({ from, to }) => getMiddle(from, to)),
    loose.length,
    `${getCount(loose.length, 'line or curve', 'lines or curves')} that close nothing, left out.`,
  );
  add(
    'too-short',
    'note',
    [],
    found.tooShort,
    `${getCount(found.tooShort, 'line or curve', 'lines or curves')} without length, left out.`,
  );
  add(
    'not-numbers',
    'look',
    [],
    found.notNumbers,
    `${getCount(found.notNumbers, 'shape')} whose figures are no numbers, left out.`,
  );
  return remarks;
}

function getCount(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

function getGapPlaces(gaps: readonly Gap[]): Point[] {
  return gaps.map(({ from, to }) => getMiddle(from, to));
}

function getMiddleOfLoop({ box }: Loop): Point {
  return { x: (box.left + box.right) / 2, y: (box.bottom + box.top) / 2 };
}

/** Such as "2 gaps closed: 0.020 in, 0.003 in." */
function describeGaps(gaps: readonly Gap[], what: string, show: (mm: number) => string): string {
  const sizes = gaps.slice(0, 5).map(({ size }) => show(size));
  const more = gaps.length > sizes.length ? ` and ${gaps.length - sizes.length} more` : '';
  return `${getCount(gaps.length, 'gap')} ${what}: ${sizes.join(', ')}${more}.`;
}
