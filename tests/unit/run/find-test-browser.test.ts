import { afterEach, describe, expect, it, vi } from 'vitest';
import { findTestBrowser, type TestBrowserMeans } from '../../run/find-test-browser';

function buildMeans(changes: Partial<TestBrowserMeans> = {}): TestBrowserMeans {
  return {
    playwrightPath: () => '',
    isProgram: () => false,
    findSystem: () => undefined,
    canInstall: () => false,
    install: () => undefined,
    ...changes,
  };
}

afterEach(() => vi.unstubAllEnvs());

describe('findTestBrowser', () => {
  it('takes Playwright’s own browser first, then the system’s', () => {
    const findSystem = () => '/usr/bin/chromium';
    const playwrightPath = () => '/cache/chrome';
    vi.stubEnv('KERFGRIP_BROWSER', undefined);
    expect(findTestBrowser(buildMeans({ findSystem, playwrightPath, isProgram: () => true }))).toEqual({
      browser: '/cache/chrome',
    });
    expect(findTestBrowser(buildMeans({ findSystem, playwrightPath }))).toEqual({ browser: '/usr/bin/chromium' });
  });

  it('installs one where it may, and looks again', () => {
    vi.stubEnv('KERFGRIP_BROWSER', undefined);
    let installed = false;
    const means = buildMeans({
      canInstall: () => true,
      install: () => {
        installed = true;
        return undefined;
      },
      findSystem: () => (installed ? '/usr/bin/chromium' : undefined),
    });
    expect(findTestBrowser(means)).toEqual({ browser: '/usr/bin/chromium' });
  });

  it('says in one sentence why there is none', () => {
    vi.stubEnv('KERFGRIP_BROWSER', undefined);
    const refused = buildMeans({ canInstall: () => true, install: () => 'apt-get install: no network' });
    expect(findTestBrowser(refused)).toEqual({
      problem: expect.stringMatching(/could not be installed: apt-get install/),
    });
    expect(findTestBrowser(buildMeans())).toEqual({ problem: expect.stringMatching(/install Chromium or Chrome/) });
  });

  it('does not swap a named browser that is not there for another one', () => {
    vi.stubEnv('KERFGRIP_BROWSER', '/opt/none');
    const means = buildMeans({ canInstall: () => true, playwrightPath: () => '/cache/chrome', isProgram: () => true });
    expect(findTestBrowser(means)).toEqual({ problem: expect.stringMatching(/KERFGRIP_BROWSER names \/opt\/none/) });
  });
});
