export interface TestCounts {
  passed: number;
  failed: number;
  skipped: number;
}

function getCount(report: object, key: string): number {
  const value = (report as Record<string, unknown>)[key];
  if (typeof value !== 'number') throw new Error(`The test report has no number "${key}".`);
  return value;
}

/** Reads the counts from Vitest's JSON report; a test file that could not be run counts as a failed test. */
export function parseVitestReport(report: unknown): TestCounts {
  if (typeof report !== 'object' || report === null) throw new Error('The test report is not an object.');
  const failedTests = getCount(report, 'numFailedTests');
  const failedFiles = getCount(report, 'numFailedTestSuites');
  return {
    passed: getCount(report, 'numPassedTests'),
    failed: failedTests === 0 ? failedFiles : failedTests,
    skipped: getCount(report, 'numPendingTests') + getCount(report, 'numTodoTests'),
  };
}

/** Reads the counts from Playwright's JSON report; a test that passed only when tried again counts as failed. */
export function parsePlaywrightReport(report: unknown): TestCounts {
  const stats = typeof report === 'object' && report !== null ? (report as { stats?: unknown }).stats : undefined;
  if (typeof stats !== 'object' || stats === null) throw new Error('The test report has no "stats".');
  return {
    passed: getCount(stats, 'expected'),
    failed: getCount(stats, 'unexpected') + getCount(stats, 'flaky'),
    skipped: getCount(stats, 'skipped'),
  };
}

/** Reads counts that were written down as they are. */
export function parseTestCounts(report: unknown): TestCounts {
  if (typeof report !== 'object' || report === null) throw new Error('The test report is not an object.');
  return {
    passed: getCount(report, 'passed'),
    failed: getCount(report, 'failed'),
    skipped: getCount(report, 'skipped'),
  };
}

/** Adds counts up. */
export function computeTotal(counts: readonly TestCounts[]): TestCounts {
  return counts.reduce(
    (total, one) => ({
      passed: total.passed + one.passed,
      failed: total.failed + one.failed,
      skipped: total.skipped + one.skipped,
    }),
    { passed: 0, failed: 0, skipped: 0 },
  );
}

/** The closing line: "N passed, N failed", and how many were skipped where any were. */
export function getCountsText({ passed, failed, skipped }: TestCounts): string {
  return `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;
}
