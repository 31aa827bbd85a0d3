/** A DXF file as far as the tests look at it; reads group codes and nothing of how they were written. */
export interface ReadDxf {
  header: Map<string, string>;
  layers: string[];
  handles: string[];
  entities: DxfEntity[];
}

export class DxfEntity {
  readonly type: string;
  readonly pairs: readonly (readonly [number, string])[];

  constructor(type: string, pairs: readonly (readonly [number, string])[]) {
    this.type = type;
    this.pairs = pairs;
  }

  get layer(): string {
    return this.text(8);
  }

  text(code: number): string {
    return this.pairs.find(([each]) => each === code)?.[1] ?? '';
  }

  numbers(...codes: number[]): number[] {
    return codes.map((code) => Number(this.text(code)));
  }

  /** Corners of a polyline. */
  get points(): [number, number][] {
    const xs = this.pairs.filter(([code]) => code === 10).map(([, value]) => Number(value));
    const ys = this.pairs.filter(([code]) => code === 20).map(([, value]) => Number(value));
    return xs.map((x, index) => [x, ys[index] ?? Number.NaN]);
  }
}

export function readDxf(text: string): ReadDxf {
  const lines = text.split(/\r?\n/u);
  const pairs: [number, string][] = [];
  for (let index = 0; index + 1 < lines.length; index += 2) {
    pairs.push([Number(lines[index]), lines[index + 1] ?? '']);
  }
  const header = new Map<string, string>();
  for (const [index, [code, value]] of pairs.entries()) {
    if (code === 9) {
      header.set(value, pairs[index + 1]?.[1] ?? '');
    }
  }
  const objects = splitObjects(pairs);
  const from = objects.findIndex((each) => each.type === 'SECTION' && each.text(2) === 'ENTITIES');
  const to = objects.findIndex((each, index) => index > from && each.type === 'ENDSEC');
  return {
    header,
    layers: objects.filter((each) => each.type === 'LAYER').map((each) => each.text(2)),
    handles: objects
      .filter((each) => each.type !== 'TABLE' && each.type !== 'SECTION')
      .flatMap((each) => each.text(5) || []),
    entities: objects.slice(from + 1, to),
  };
}

function splitObjects(pairs: readonly [number, string][]): DxfEntity[] {
  const starts = pairs.flatMap(([code], index) => (code === 0 ? [index] : []));
  return starts.map((start, index) => {
    const end = starts[index + 1] ?? pairs.length;
    return new DxfEntity(pairs[start]?.[1] ?? '', pairs.slice(start + 1, end));
  });
}
