/** What one long check has counted. */
export interface SoakReport {
  /** What was checked, as the line on it begins. */
  check: string;
  /** How many of what; shares of one check are added up. */
  counts: Readonly<Record<string, number>>;
  /** The largest of what; of shares the largest counts. */
  most: Readonly<Record<string, number>>;
}

/** Prints what was counted, and hands it to `run-soak` where that has started this program. */
export function report({ check, counts, most }: SoakReport): void {
  console.log(getReportText({ check, counts, most }));
  process.send?.({ check, counts, most } satisfies SoakReport);
}

/** One line, such as "Kills: 300 kills, 0 at fault; largest: 812 ms". */
export function getReportText({ check, counts, most }: SoakReport): string {
  const list = (values: Readonly<Record<string, number>>): string =>
    Object.entries(values)
      .map(([what, value]) => `${value} ${what}`)
      .join(', ');
  const largest = Object.keys(most).length === 0 ? '' : `; at most ${list(most)}`;
  return `${check}: ${list(counts)}${largest}`;
}

/** Reports on shares of the same check made into one. */
export function addReports(reports: readonly SoakReport[]): SoakReport[] {
  const sums = new Map<string, { counts: Record<string, number>; most: Record<string, number> }>();
  for (const { check, counts, most } of reports) {
    const sum = sums.get(check) ?? { counts: {}, most: {} };
    for (const [what, value] of Object.entries(counts)) sum.counts[what] = (sum.counts[what] ?? 0) + value;
    for (const [what, value] of Object.entries(most)) sum.most[what] = Math.max(sum.most[what] ?? value, value);
    sums.set(check, sum);
  }
  return [...sums].map(([check, sum]) => ({ check, ...sum }));
}
