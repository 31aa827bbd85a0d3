import highsLoader from 'highs';
import type { BinInstance } from '../../shared/nest/bin-instance';

export interface MipOutcome {
  readonly bins: number | undefined;
  readonly isProven: boolean;
  readonly ms: number;
  readonly note: string;
}

/**
 * The plain arc-flow model (Valério de Carvalho 1999, "Exact solution of bin-packing problems using column generation and
 * branch-and-bound", Ann. OR 86), items in order of falling length, as LP text: a unit of flow from 0 to the capacity is a bar.
 */
export function buildArcFlow(instance: BinInstance): { text: string; arcs: number } {
  const { capacity, items } = instance;
  const reached = new Set([0]);
  const arcs: { from: number; to: number; item: number }[] = [];
  items.forEach(({ length, demand }, item) => {
    let front = new Set(reached);
    for (let copy = 0; copy < demand && front.size > 0; copy++) {
      const next = new Set<number>();
      for (const from of front) {
        const to = from + length;
        if (to > capacity) continue;
        arcs.push({ from, to, item });
        next.add(to);
      }
      front = new Set([...next].filter((node) => !reached.has(node)));
      for (const node of next) reached.add(node);
    }
  });
  const unique = [...new Map(arcs.map((arc) => [`${arc.from}_${arc.to}_${arc.item}`, arc])).values()];
  const flows = new Map<number, string[]>();
  const addFlow = (node: number, term: string): void => {
    const terms = flows.get(node);
    if (terms) terms.push(term);
    else flows.set(node, [term]);
  };
  const covers: string[][] = items.map(() => []);
  unique.forEach(({ from, to, item }, k) => {
    addFlow(from, `- x${k}`);
    addFlow(to, `+ x${k}`);
    covers[item]?.push(`+ x${k}`);
  });
  const nodes = [...reached].sort((a, b) => a - b);
  const losses: string[] = [];
  for (const node of nodes) {
    if (node === 0 || node === capacity) continue;
    addFlow(node, `- l${node}`);
    addFlow(capacity, `+ l${node}`);
    losses.push(`l${node}`);
  }
  addFlow(0, '+ z');
  addFlow(capacity, '- z');
  const rows = [...flows].map(([node, terms]) => ` n${node}: ${terms.join(' ')} = 0`);
  const demands = items.map(({ demand }, item) => ` d${item}: ${covers[item]?.join(' ')} >= ${demand}`);
  const general = [...unique.keys()].map((k) => `x${k}`);
  const text = [
    'Minimize',
    ' obj: z',
    'Subject To',
    ...rows,
    ...demands,
    'General',
    ` z ${general.join(' ')} ${losses.join(' ')}`,
    'End',
  ];
  return { text: breakLines(text).join('\n'), arcs: unique.length };
}

/** LP text may not have lines of any length. */
function breakLines(lines: readonly string[]): string[] {
  return lines.flatMap((line) => {
    if (line.length < 400) return [line];
    const broken: string[] = [];
    let rest = line;
    while (rest.length > 400) {
      const at =
        line.includes(':') || rest.includes('+') || rest.includes('-') ? findBreak(rest) : rest.lastIndexOf(' ', 400);
      broken.push(rest.slice(0, at));
      rest = rest.slice(at);
    }
    broken.push(rest);
    return broken;
  });
}

function findBreak(text: string): number {
  const at = Math.max(text.lastIndexOf(' +', 400), text.lastIndexOf(' -', 400));
  return at > 0 ? at : text.lastIndexOf(' ', 400);
}

/** Gives the arc-flow model of an instance to HiGHS, model building included in the time. */
export async function solveWithHighs(instance: BinInstance, limitS: number): Promise<MipOutcome> {
  const start = performance.now();
  try {
    const { text } = buildArcFlow(instance);
    const highs = await highsLoader();
    const solution = highs.solve(text, { time_limit: limitS, output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0.999 });
    const bins = Number.isFinite(solution.ObjectiveValue) ? Math.round(solution.ObjectiveValue) : undefined;
    return { bins, isProven: solution.Status === 'Optimal', ms: performance.now() - start, note: solution.Status };
  } catch (error) {
    return { bins: undefined, isProven: false, ms: performance.now() - start, note: String(error).slice(0, 60) };
  }
}
