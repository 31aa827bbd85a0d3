// The drawings that reading outlines is tested with, one fault or feature in each. The same link is drawn in many ways:
// 120 x 20 mm, a strut of the sluice gate's hoist, its ends square or round.
import {
  arc, circle, ellipse, fitSpline, getOnCircle, insert, line, lwpolyline, NORMAL_DOWN, polyline, rectangle, spline, writeDxf,
} from './dxf-words';

const LINK = rectangle(0, 0, 120, 20);
const LINK_INCH = rectangle(0, 0, 4.724, 0.787);

/** Round ends of radius 10 drawn from the left end's top, anticlockwise. */
const ROUND_LINK: [number, number, number?][] = [
  [10, 20, 1],
  [10, 0],
  [110, 0, 1],
  [110, 20],
];

/** A circle of radius 5 as a rational quadratic spline. Source: L. Piegl and W. Tiller, The NURBS Book (2nd ed. 1997), example 7.3. */
const HALF_ROOT = Math.SQRT1_2;
const NURBS_CIRCLE = spline(
  2,
  [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4],
  [[65, 10], [65, 15], [60, 15], [55, 15], [55, 10], [55, 5], [60, 5], [65, 5], [65, 10]],
  [1, HALF_ROOT, 1, HALF_ROOT, 1, HALF_ROOT, 1, HALF_ROOT, 1],
);

/** Each level puts ten of the level below, to ten to the ninth lines. */
const BOMB = Object.fromEntries(
  Array.from({ length: 9 }, (_unused, level) => [
    `L${level}`,
    level === 0 ? [line(0, 0, 1, 0)] : Array.from({ length: 10 }, (_each, copy) => insert(`L${level - 1}`, copy, 0)),
  ]),
);

const dxf = writeDxf;
const CYRILLIC = Buffer.from([0xca, 0xee, 0xed, 0xf2, 0xf3, 0xf0]);

const dxfFiles: Record<string, string | Uint8Array> = {
  'r12-lines': dxf({ entities: LINK }),
  'r12-polyline-bulge': dxf({ entities: [polyline(ROUND_LINK)] }),
  'lwpolyline-bulge': dxf({ units: 'mm', entities: [lwpolyline(ROUND_LINK)] }),
  'lwpolyline-clockwise': dxf({
    units: 'mm',
    entities: [lwpolyline([[110, 20, -1], [110, 0], [10, 0, -1], [10, 20]])],
  }),
  'lines-and-arcs-any-direction': dxf({
    units: 'mm',
    entities: [line(10, 20, 110, 20), arc(110, 10, 10, 270, 90), line(10, 0, 110, 0), arc(10, 10, 10, 90, 270)],
  }),
  'bores': dxf({ units: 'mm', entities: [...LINK, circle(15, 10, 4), circle(105, 10, 5)] }),
  'bore-of-two-arcs': dxf({ units: 'mm', entities: [...LINK, arc(60, 10, 5, 0, 180), arc(60, 10, 5, 180, 360)] }),
  'bore-of-bulges': dxf({ units: 'mm', entities: [...LINK, lwpolyline([[55, 10, 1], [65, 10, 1]])] }),
  'bore-of-a-spline': dxf({ units: 'mm', entities: [...LINK, NURBS_CIRCLE] }),
  'bore-off-centre': dxf({ units: 'mm', entities: [...LINK, circle(60, 12, 3)] }),
  'slot-along': dxf({ units: 'mm', entities: [...LINK, lwpolyline([[50, 14, 1], [50, 6], [70, 6, 1], [70, 14]])] }),
  'slot-across': dxf({ units: 'mm', entities: [...LINK, lwpolyline([[56, 7, 1], [64, 7], [64, 13, 1], [56, 13]])] }),
  'window': dxf({ units: 'mm', entities: [...LINK, ...rectangle(50, 5, 20, 10)] }),
  'ellipse-window': dxf({ units: 'mm', entities: [...LINK, ellipse([60, 10], [8, 0], 0.5)] }),
  'ellipse-end': dxf({
    units: 'mm',
    entities: [line(0, 0, 100, 0), line(100, 20, 0, 20), line(0, 20, 0, 0), ellipse([100, 10], [20, 0], 0.5, -Math.PI / 2, Math.PI / 2)],
  }),
  'ellipse-normal-down': dxf({
    units: 'mm',
    // The minor axis is the normal crossed with the major one: it points down, and the quarter runs from (120, 10) to (100, 0).
    entities: [line(0, 0, 100, 0), line(120, 10, 120, 20), line(120, 20, 0, 20), line(0, 20, 0, 0), ellipse([100, 10], [20, 0], 0.5, 0, Math.PI / 2, ...NORMAL_DOWN)],
  }),
  'spline-end': dxf({
    units: 'mm',
    entities: [line(0, 0, 100, 0), line(100, 20, 0, 20), line(0, 20, 0, 0), spline(3, [0, 0, 0, 0, 1, 1, 1, 1], [[100, 0], [120, 0], [120, 20], [100, 20]])],
  }),
  'spline-kinked': dxf({
    units: 'mm',
    entities: [spline(1, [0, 0, 1, 2, 3, 4, 4], [[0, 0], [120, 0], [120, 20], [0, 20], [0, 0]])],
  }),
  'spline-one-fit-point': dxf({
    units: 'mm',
    entities: [line(0, 0, 100, 0), line(100, 20, 0, 20), line(0, 20, 0, 0), fitSpline([[100, 0]])],
  }),
  'spline-fit-points-only': dxf({
    units: 'mm',
    // A half circle by five of its points, and how it leaves the first and reaches the last.
    entities: [
      line(0, 0, 110, 0),
      fitSpline(getOnCircle([110, 10], 10, [-90, -45, 0, 45, 90]), 8, 12, 1, 22, 0, 13, -1, 23, 0),
      line(110, 20, 0, 20),
      line(0, 20, 0, 0),
    ],
  }),
  'bore-of-fit-points': dxf({
    units: 'mm',
    entities: [...LINK, fitSpline(getOnCircle([60, 10], 5, Array.from({ length: 12 }, (_unused, index) => 30 * index)), 9)],
  }),
  'insert': dxf({ units: 'mm', blocks: { LINK }, entities: [insert('LINK', 30, 40)] }),
  'insert-nested': dxf({
    units: 'mm',
    // Half size turned a quarter and back, twice as large: as drawn.
    blocks: { INNER: rectangle(0, 0, 120, 20), OUTER: [insert('INNER', 0, 0, 41, 0.5, 42, 0.5, 50, 90)] },
    entities: [insert('OUTER', 7, 9, 41, 2, 42, 2, 50, -90)],
  }),
  'insert-mirrored': dxf({
    units: 'mm',
    blocks: { LINK: [...LINK, circle(15, 10, 4)] },
    entities: [insert('LINK', 120, 0, 41, -1, 42, 1)],
  }),
  'insert-normal-down': dxf({
    units: 'mm',
    blocks: { LINK: [...LINK, circle(15, 10, 4)] },
    entities: [insert('LINK', -120, 0, ...NORMAL_DOWN)],
  }),
  'insert-uneven': dxf({
    units: 'mm',
    blocks: { HOLE: [circle(0, 0, 4)] },
    entities: [...LINK, insert('HOLE', 60, 10, 41, 2, 42, 1)],
  }),
  'insert-rows': dxf({
    units: 'mm',
    blocks: { HOLE: [circle(0, 0, 3)] },
    entities: [...LINK, insert('HOLE', 15, 10, 70, 3, 71, 1, 44, 45, 45, 0)],
  }),
  'insert-layer-of-reference': dxf({
    units: 'mm',
    layers: [{ name: 'HIDDEN', flags: 1 }],
    blocks: { HOLE: [circle(0, 0, 3)] },
    entities: [...LINK, [0, 'INSERT', 8, 'HIDDEN', 2, 'HOLE', 10, 60, 20, 10]],
  }),
  'insert-without-block': dxf({ units: 'mm', entities: [...LINK, insert('GONE', 0, 0)] }),
  'insert-of-itself': dxf({ units: 'mm', blocks: { LOOP: [insert('LOOP', 1, 0)] }, entities: [...LINK, insert('LOOP', 0, 0)] }),
  'insert-bomb': dxf({ units: 'mm', blocks: BOMB, entities: [...LINK, insert('L8', 0, 0)] }),
  'block-named-block': dxf({ units: 'mm', blocks: { BLOCK: LINK }, entities: [insert('BLOCK', 0, 0)] }),
  'arc-normal-down': dxf({
    units: 'mm',
    // In its own plane, x mirrored, the right end is on the left.
    entities: [line(10, 20, 110, 20), line(10, 0, 110, 0), arc(-110, 10, 10, 90, 270, ...NORMAL_DOWN), arc(10, 10, 10, 90, 270)],
  }),
  'lwpolyline-normal-down': dxf({
    units: 'mm',
    entities: [lwpolyline(ROUND_LINK.map(([x, y, bulge]) => [-x, y, bulge === undefined ? 0 : -bulge]), ...NORMAL_DOWN)],
  }),
  'circle-normal-down': dxf({ units: 'mm', entities: [...LINK, circle(-15, 10, 4, ...NORMAL_DOWN)] }),
  'circle-tilted': dxf({ units: 'mm', entities: [...LINK, circle(15, 10, 4, 210, 1, 220, 0, 230, 0)] }),
  'line-rising': dxf({
    units: 'mm',
    entities: [...LINK, [0, 'LINE', 8, '0', 10, 0, 20, 0, 30, 0, 11, 0, 21, 0, 31, 25]],
  }),
  'units-inch': dxf({ units: 'in', entities: LINK_INCH }),
  'units-none': dxf({ units: 'none', entities: LINK_INCH }),
  'units-metre-by-mistake': dxf({ units: 'm', entities: LINK }),
  'r5-gap-and-duplicates': dxf({
    entities: [
      // One corner stands open by (.012, .016).
      line(0, 0, 4.712, 0),
      line(4.724, 0.016, 4.724, 0.787),
      line(4.724, 0.787, 0, 0.787),
      line(0, 0.787, 0, 0),
      line(0, 0, 0, 0.787),
      line(4.724, 0.787, 0, 0.787),
    ],
  }),
  'gap-wide': dxf({ units: 'mm', entities: [line(0, 0, 118, 0), ...LINK.slice(1)] }),
  'gaps-many': dxf({
    units: 'mm',
    entities: [line(0.03, 0, 119.96, 0), line(120, 0.02, 120, 19.97), line(119.98, 20, 0.05, 20), line(0, 19.96, 0, 0.04)],
  }),
  'gap-at-an-arc': dxf({
    units: 'mm',
    entities: [line(10, 20, 110, 20), arc(110, 10, 10, 270, 90), line(10, 0, 109.95, 0), arc(10, 10, 10, 90, 270)],
  }),
  'duplicate-covered': dxf({ units: 'mm', entities: [...LINK, line(0, 0, 60, 0), line(60, 0, 120, 0)] }),
  'duplicate-curves': dxf({
    units: 'mm',
    entities: [...LINK, circle(15, 10, 4), circle(15, 10, 4), arc(105, 10, 5, 0, 180), arc(105, 10, 5, 0, 180), arc(105, 10, 5, 180, 360)],
  }),
  'no-length': dxf({ units: 'mm', entities: [...LINK, line(60, 0, 60, 0)] }),
  'divided': dxf({
    units: 'mm',
    entities: [line(0, 0, 60, 0), line(60, 0, 120, 0), line(120, 0, 120, 20), line(120, 20, 60, 20), line(60, 20, 0, 20), line(0, 20, 0, 0), line(60, 0, 60, 20)],
  }),
  'stub': dxf({ units: 'mm', entities: [...LINK, line(120, 20, 130, 25)] }),
  'crossing': dxf({
    units: 'mm',
    entities: [line(0, 0, 120, 0), line(120, 0, 120, 20), line(120, 20, 50, -5), line(50, -5, 40, 20), line(40, 20, 0, 20), line(0, 20, 0, 0)],
  }),
  'two-parts': dxf({ units: 'mm', entities: [...LINK, ...rectangle(0, 40, 60, 15)] }),
  'layer-off': dxf({
    units: 'mm',
    layers: [{ name: 'OFF', colour: -3 }],
    entities: [...LINK, [0, 'CIRCLE', 8, 'OFF', 10, 60, 20, 10, 40, 5]],
  }),
  'layers-named-like-marks': dxf({
    units: 'mm',
    layers: [{ name: 'TABLE', flags: 1 }, { name: 'LAYER', colour: -1 }, { name: 'ENDTAB' }, { name: 'STYLE' }],
    entities: [
      ...LINK.map((pairs) => pairs.map((value, index) => (pairs[index - 1] === 8 ? 'STYLE' : value))),
      [0, 'CIRCLE', 8, 'TABLE', 10, 30, 20, 10, 40, 5],
      [0, 'CIRCLE', 8, 'LAYER', 10, 60, 20, 10, 40, 5],
      [0, 'CIRCLE', 8, 'ENDTAB', 10, 90, 20, 10, 40, 5],
    ],
  }),
  'sheet-and-hidden': dxf({
    units: 'mm',
    entities: [...LINK, circle(60, 10, 5, 67, 1), circle(30, 10, 5, 60, 1)],
  }),
  'other-kinds': dxf({
    units: 'mm',
    entities: [
      ...LINK,
      [0, 'TEXT', 8, '0', 10, 0, 20, 0, 40, 2.5, 1, 'BLOCK'],
      [0, 'MTEXT', 8, '0', 10, 0, 20, 0, 40, 2.5, 1, 'strut'],
      [0, 'DIMENSION', 8, '0', 2, '*D1', 10, 0, 20, 0],
      [0, 'HATCH', 8, '0', 10, 0, 20, 0],
      [0, 'LEADER', 8, '0', 10, 0, 20, 0],
      [0, 'RAY', 8, '0', 10, 0, 20, 0, 11, 1, 21, 0],
      [0, 'XLINE', 8, '0', 10, 0, 20, 0, 11, 1, 21, 0],
      [0, 'POINT', 8, '0', 10, 0, 20, 0],
    ],
  }),
  'polyline-curve-fit': dxf({
    units: 'mm',
    // The frame's corners are flagged 16 and are no part of the drawn line.
    entities: [polyline([[0, 0, 0, 8], [150, -30, 0, 16], [120, 0, 0, 8], [120, 20, 0, 8], [0, 20, 0, 8]], 5)],
  }),
  'mesh': dxf({ units: 'mm', entities: [...LINK, polyline([[0, 0], [1, 0], [1, 1]], 64)] }),
  'negative-radius': dxf({ units: 'mm', entities: [...LINK, circle(60, 10, -5)] }),
  'no-number': dxf({ units: 'mm', entities: [...LINK, [0, 'CIRCLE', 8, '0', 10, 'sixty', 20, 10, 40, 5]] }),
  'far-away': dxf({ units: 'mm', entities: rectangle(1_250_000, -830_000, 120, 20) }),
  'upright': dxf({ units: 'mm', entities: [...rectangle(0, 0, 20, 120), circle(10, 15, 4)] }),
  'forked': dxf({
    units: 'mm',
    entities: [lwpolyline([[0, 0], [120, 0], [120, 6], [90, 6], [90, 14], [120, 14], [120, 20], [0, 20]])],
  }),
  'shanked': dxf({
    units: 'mm',
    // Full width for 30, a shank 12 wide for 50, a taper back to full width over 20, full width again.
    entities: [lwpolyline([[0, 0], [30, 0], [30, 4], [80, 4], [100, 0], [120, 0], [120, 20], [100, 20], [80, 16], [30, 16], [30, 20], [0, 20]])],
  }),
  'comments-and-spaces': dxf({
    units: 'mm',
    entities: LINK.map((pairs) => [999, 'drawn by hand', ...pairs.map((value, index) => (index % 2 === 0 ? `  ${value}` : `${value}  `))]),
  }),
  'line-ends-unix': dxf({ units: 'mm', entities: LINK, lineEnd: '\n' }),
  'line-ends-old': dxf({ units: 'mm', entities: LINK, lineEnd: '\r' }),
  'end-mark-missing': dxf({ units: 'mm', entities: LINK, end: '' }),
  'after-the-end': `${dxf({ units: 'mm', entities: LINK })}\r\n\r\nnothing to read\r\n`,
  'truncated': dxf({ units: 'mm', entities: LINK }).slice(0, -60),
  'truncated-in-polyline': dxf({ units: 'mm', entities: [polyline(ROUND_LINK)] }).split('SEQEND')[0] ?? '',
  'damaged': dxf({ units: 'mm', entities: LINK }).replace('\r\nLINE\r\n', '\r\nLINE\r\n\r\n'),
  'no-entities': ['0', 'SECTION', '2', 'HEADER', '0', 'ENDSEC', '0', 'EOF', ''].join('\r\n'),
  'binary': Buffer.concat([Buffer.from('AutoCAD Binary DXF\r\n\u001a\u0000', 'latin1'), Buffer.from([0, 0, 2, 0])]),
  'empty': '',
  'no-dxf': 'Strut, 120 x 20\r\nas sketched\r\n',
};
dxfFiles['old-code-page'] = insertBytes(dxf({ codePage: 'ANSI_1251', entities: LINK }), '\r\n8\r\n0\r\n', CYRILLIC);

/** The first layer name replaced by bytes of an old code page. */
function insertBytes(text: string, after: string, bytes: Uint8Array): Uint8Array {
  const [before = '', ...rest] = text.split(after);
  return Buffer.concat([
    Buffer.from(`${before}\r\n8\r\n`, 'latin1'),
    bytes,
    Buffer.from(`\r\n${rest.join(after)}`, 'latin1'),
  ]);
}

const svg = (body: string, attributes = 'width="120mm" height="20mm" viewBox="0 0 120 20"'): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${attributes}>\n${body}\n</svg>\n`;

const BOX = '<path d="M0 0H120V20H0Z"/>';

const svgFiles: Record<string, string> = {
  'mm': svg(BOX),
  'inch': svg(BOX, 'width="4.724in" height="0.787in" viewBox="0 0 120 20"'),
  'pixels': svg('<path d="M0 0H453.5433V75.5906H0Z"/>', 'width="453.5433px" height="75.5906px"'),
  'no-units': svg(BOX, 'viewBox="0 0 120 20"'),
  'view-box-offset': svg('<path d="M-60 -10H60V10H-60Z"/>', 'width="120mm" height="20mm" viewBox="-60 -10 120 20"'),
  'relative-path': svg('<path d="m0,0h120v20h-120z"/>'),
  'packed-arc-flags': svg('<path d="M10 0H110A10 10 0 01110 20H10A10 10 0 0110 0Z"/>'),
  'arcs-too-small': svg('<path d="M10 0H110A1 1 0 0 1 110 20H10A1 1 0 0 1 10 0Z"/>'),
  'bezier-bore': svg(`${BOX}<path d="M65 10C65 12.761424 62.761424 15 60 15S55 12.761424 55 10 57.238576 5 60 5 65 7.238576 65 10Z"/>`),
  'quadratic-end': svg('<path d="M0 0H100Q120 0 120 10T100 20H0Z"/>'),
  'transforms': svg('<g transform="translate(120 0) scale(-1 1)"><g transform="matrix(0.5 0 0 0.5 0 0)"><path transform="scale(2)" d="M0 0H120V20H0Z"/><circle cx="30" cy="20" r="8"/></g></g>'),
  'turned': svg('<path transform="rotate(90) translate(0 -120)" d="M0 0H20V120H0Z"/>'),
  'shapes': svg('<polygon points="0,0 120,0 120,20 0,20"/><circle cx="15" cy="10" r="4"/><rect x="50" y="6" width="20" height="8" rx="4"/><line x1="0" y1="0" x2="120" y2="0"/>'),
  'rounded-rect': svg('<rect width="120" height="20" rx="10"/>'),
  'ellipse-shape': svg(`${BOX}<ellipse cx="60" cy="10" rx="8" ry="4"/><ellipse cx="20" cy="10" rx="4" ry="4"/>`),
  'use': svg(`${BOX}<defs><circle id="hole" r="3"/></defs><use href="#hole" x="15" y="10"/><use xlink:href="#hole" transform="translate(105 10)"/>`),
  'use-of-itself': svg(`${BOX}<g id="a"><use href="#a" x="1"/></g>`),
  'use-bomb': svg(`${BOX}<defs><path id="u0" d="M0 0h1"/>${Array.from({ length: 9 }, (_unused, level) => `<g id="u${level + 1}">${`<use href="#u${level}" y="1"/>`.repeat(10)}</g>`).join('')}</defs><use href="#u9"/>`),
  'hidden': svg(`${BOX}<circle cx="20" cy="10" r="4" display="none"/><circle cx="40" cy="10" r="4" style="visibility:hidden"/><g style="fill:none;display:none"><circle cx="60" cy="10" r="4"/></g>`),
  'other-kinds': svg(`<title>strut</title>${BOX}<text x="5" y="5">strut</text><image href="x.png" width="5" height="5"/><foreignObject/>`),
  'broken-path': svg(`${BOX}<path d="M10 5H20V15H10Z M50 5 L oops"/>`),
  'own-entities': `<?xml version="1.0"?>\n<!DOCTYPE svg [<!ENTITY ns "http://www.w3.org/2000/svg">]>\n<svg xmlns="&ns;" width="120mm" height="20mm" viewBox="0 0 120 20">${BOX}</svg>`,
  'entity-bomb': `<?xml version="1.0"?>\n<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">${'bcdefghij'.split('').map((name, at) => `<!ENTITY ${name} "${`&${'abcdefghi'[at]};`.repeat(10)}">`).join('')}]>\n<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="20mm" viewBox="0 0 120 20"><desc>&j;</desc>${BOX}</svg>`,
  'truncated': svg(BOX).slice(0, -12),
  'no-svg': '<?xml version="1.0"?><html><body/></html>',
};

/** Name and content of each file. */
export const OUTLINE_FILES: ReadonlyMap<string, Uint8Array> = new Map(
  [
    ...Object.entries(dxfFiles).map(([name, content]) => [`${name}.dxf`, content] as const),
    ...Object.entries(svgFiles).map(([name, content]) => [`svg-${name}.svg`, content] as const),
  ].map(([name, content]) => [name, typeof content === 'string' ? Buffer.from(content) : content]),
);
