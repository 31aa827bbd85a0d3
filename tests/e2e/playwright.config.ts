import { join } from 'node:path';
import { defineConfig } from '@playwright/test';
import { findTestBrowser } from '../run/find-test-browser';
import { ROOT } from '../run/run-program';
import { getTestBrowserFlags } from '../run/test-browser-flags';

const found = findTestBrowser();
if ('problem' in found) throw new Error(found.problem);

export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.ts',
  outputDir: join(ROOT, 'build/test-results'),
  // Two cores: a second browser would slow the first, and drags are then seen to stutter.
  workers: 1,
  retries: 0,
  forbidOnly: true,
  // Ends of waiting for a state that never comes, not measures of speed: a machine may be busy with something else.
  timeout: 120_000,
  expect: { timeout: 20_000 },
  reporter: [['list'], ['json', { outputFile: join(ROOT, 'build/reports/e2e.json') }]],
  use: {
    actionTimeout: 20_000,
    viewport: { width: 1440, height: 900 },
    locale: 'en-US',
    timezoneId: 'UTC',
    screenshot: 'only-on-failure',
    // A trace makes every action slower, so it is made when asked for: KERFGRIP_TRACE=1.
    trace: process.env.KERFGRIP_TRACE === '1' ? 'retain-on-failure' : 'off',
    launchOptions: { executablePath: found.browser, args: getTestBrowserFlags() },
  },
});
