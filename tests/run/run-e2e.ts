// Builds the planner and runs the end-to-end tests in a real browser; further words go to Playwright.
import { findTestBrowser } from './find-test-browser';
import { getCommandPath, runNode } from './run-program';

function runE2e(args: readonly string[]): number {
  const found = findTestBrowser();
  if ('problem' in found) {
    console.error(found.problem);
    return 1;
  }
  const built = runNode([getCommandPath('vite', 'bin/vite.js'), 'build', '--app', '--logLevel', 'warn']);
  if (built !== 0) return built;
  console.log(`Browser: ${found.browser}`);
  const playwright = getCommandPath('@playwright/test', 'cli.js');
  return runNode([playwright, 'test', '--config', 'tests/e2e/playwright.config.ts', ...args], {
    KERFGRIP_BROWSER: found.browser,
  });
}

process.exitCode = runE2e(process.argv.slice(2));
