// Small words for writing DXF files by hand: code and value in turn.

export type Pairs = readonly (number | string)[];

/** `$INSUNITS` of a file. */
export const INSUNITS = { none: 0, in: 1, ft: 2, mm: 4, cm: 5, m: 6 } as const;

export interface DxfSource {
  entities: readonly Pairs[];
  blocks?: Readonly<Record<string, readonly Pairs[]>>;
  layers?: readonly { name: string; flags?: number; colour?: number }[];
  /** Left out: an R12 file without the header variable. */
  units?: keyof typeof INSUNITS;
  codePage?: string;
  lineEnd?: string;
  /** Put after the last section in place of the end mark. */
  end?: string;
}

const at = (x: number, y: number, first = 10): Pairs => [first, x, first + 10, y];

export const NORMAL_DOWN: Pairs = [210, 0, 220, 0, 230, -1];

export const line = (x1: number, y1: number, x2: number, y2: number, ...more: Pairs): Pairs => [
  0, 'LINE', 8, '0', ...at(x1, y1), ...at(x2, y2, 11), ...more,
];

export const circle = (x: number, y: number, radius: number, ...more: Pairs): Pairs => [
  0, 'CIRCLE', 8, '0', ...at(x, y), 40, radius, ...more,
];

export const arc = (x: number, y: number, radius: number, start: number, end: number, ...more: Pairs): Pairs => [
  0, 'ARC', 8, '0', ...at(x, y), 40, radius, 50, start, 51, end, ...more,
];

export const ellipse = (
  centre: [number, number],
  major: [number, number],
  ratio: number,
  start = 0,
  end = 2 * Math.PI,
  ...more: Pairs
): Pairs => [0, 'ELLIPSE', 8, '0', ...at(...centre), ...at(...major, 11), 40, ratio, 41, start, 42, end, ...more];

/** Corners as x, y, bulge. */
export const lwpolyline = (corners: readonly [number, number, number?][], ...more: Pairs): Pairs => [
  0, 'LWPOLYLINE', 8, '0', 90, corners.length, 70, 1, ...more,
  ...corners.flatMap(([x, y, bulge = 0]) => [...at(x, y), 42, bulge]),
];

export const polyline = (corners: readonly [number, number, number?, number?][], flags = 1): Pairs => [
  0, 'POLYLINE', 8, '0', 66, 1, 70, flags,
  ...corners.flatMap(([x, y, bulge = 0, vertexFlags = 0]) => [
    0, 'VERTEX', 8, '0', ...at(x, y), 42, bulge, 70, vertexFlags,
  ]),
  0, 'SEQEND',
];

export const spline = (
  degree: number,
  knots: readonly number[],
  controls: readonly [number, number][],
  weights: readonly number[] = [],
): Pairs => [
  0, 'SPLINE', 8, '0', 70, 8, 71, degree, 72, knots.length, 73, controls.length,
  ...knots.flatMap((knot) => [40, knot]),
  ...weights.flatMap((weight) => [41, weight]),
  ...controls.flatMap(([x, y]) => at(x, y)),
];

/** A spline by the points that it passes through alone; `more` may say its directions at the ends. */
export const fitSpline = (points: readonly [number, number][], flags = 8, ...more: Pairs): Pairs => [
  0, 'SPLINE', 8, '0', 70, flags, 71, 3, 74, points.length,
  ...more,
  ...points.flatMap(([x, y]) => [11, x, 21, y]),
];

/** Points of a circle at these angles, degrees. */
export const getOnCircle = (centre: readonly [number, number], radius: number, anglesDeg: readonly number[]): [number, number][] =>
  anglesDeg.map((angleDeg) => {
    const angleRad = (angleDeg * Math.PI) / 180;
    return [centre[0] + radius * Math.cos(angleRad), centre[1] + radius * Math.sin(angleRad)];
  });

export const insert = (block: string, x: number, y: number, ...more: Pairs): Pairs => [
  0, 'INSERT', 8, '0', 2, block, ...at(x, y), ...more,
];

export const rectangle = (left: number, bottom: number, width: number, height: number): Pairs[] => {
  const [right, top] = [left + width, bottom + height];
  return [
    line(left, bottom, right, bottom),
    line(right, bottom, right, top),
    line(right, top, left, top),
    line(left, top, left, bottom),
  ];
};

const section = (name: string, body: Pairs): Pairs => [0, 'SECTION', 2, name, ...body, 0, 'ENDSEC'];

/** The file as text. */
export function writeDxf({ entities, blocks = {}, layers = [], units, codePage, lineEnd = '\r\n', end }: DxfSource): string {
  const header: Pairs =
    units === undefined
      ? [9, '$ACADVER', 1, 'AC1009', ...(codePage === undefined ? [] : [9, '$DWGCODEPAGE', 3, codePage])]
      : [9, '$ACADVER', 1, 'AC1015', 9, '$INSUNITS', 70, INSUNITS[units]];
  const layerTable: Pairs = layers.flatMap(({ name, flags = 0, colour = 7 }) => [
    0, 'LAYER', 2, name, 70, flags, 62, colour, 6, 'CONTINUOUS',
  ]);
  const blockPairs: Pairs = Object.entries(blocks).flatMap(([name, body]) => [
    0, 'BLOCK', 8, '0', 2, name, 70, 0, 10, 0, 20, 0, 3, name, ...body.flat(), 0, 'ENDBLK', 8, '0',
  ]);
  const pairs: Pairs = [
    ...section('HEADER', header),
    ...section('TABLES', [0, 'TABLE', 2, 'LAYER', 70, layers.length, ...layerTable, 0, 'ENDTAB']),
    ...section('BLOCKS', blockPairs),
    ...section('ENTITIES', entities.flat()),
    ...(end === undefined ? [0, 'EOF'] : []),
  ];
  return `${pairs.map(String).join(lineEnd)}${lineEnd}${end ?? ''}`;
}
