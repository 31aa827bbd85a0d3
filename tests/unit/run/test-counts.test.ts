import { describe, expect, it } from 'vitest';
import { computeTotal, getCountsText, parsePlaywrightReport, parseVitestReport } from '../../run/test-counts';

describe('test counts', () => {
  it('reads Vitest’s report, a file that could not be run counting as failed', () => {
    const report = {
      numPassedTests: 7,
      numFailedTests: 0,
      numFailedTestSuites: 1,
      numPendingTests: 1,
      numTodoTests: 1,
    };
    expect(parseVitestReport(report)).toEqual({ passed: 7, failed: 1, skipped: 2 });
    expect(parseVitestReport({ ...report, numFailedTests: 3 }).failed).toBe(3);
  });

  it('reads Playwright’s report, a test that passed only on a second try counting as failed', () => {
    const stats = { expected: 4, unexpected: 1, flaky: 1, skipped: 0 };
    expect(parsePlaywrightReport({ stats })).toEqual({ passed: 4, failed: 2, skipped: 0 });
  });

  it.each([null, 3, {}, { stats: { expected: '4' } }])('refuses the report %j', (report) => {
    expect(() => parsePlaywrightReport(report)).toThrow(/report/);
    expect(() => parseVitestReport(report)).toThrow(/report/);
  });

  it('closes with a line that names the skipped only where there are any', () => {
    const total = computeTotal([
      { passed: 2, failed: 0, skipped: 0 },
      { passed: 3, failed: 1, skipped: 0 },
    ]);
    expect(getCountsText(total)).toBe('5 passed, 1 failed');
    expect(getCountsText({ ...total, skipped: 2 })).toBe('5 passed, 1 failed, 2 skipped');
  });
});
