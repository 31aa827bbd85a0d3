import { describe, expect, it } from 'vitest';
import { findBrowser, getBrowserCandidates, isProgram } from '../../../main/start/find-browser';

const only =
  (...present: string[]) =>
  (path: string): boolean =>
    present.includes(path);

describe('findBrowser', () => {
  it('takes Chromium on the PATH before Chrome', () => {
    const search = {
      platform: 'linux' as const,
      env: { PATH: '/opt/tools:/usr/bin' },
      isProgram: only('/usr/bin/google-chrome', '/opt/tools/chromium'),
    };
    expect(findBrowser(search)).toBe('/opt/tools/chromium');
  });

  it('looks in the usual places although they are not on the PATH', () => {
    const env = { PATH: '/bin' };
    expect(findBrowser({ platform: 'linux', env, isProgram: only('/snap/bin/chromium') })).toBe('/snap/bin/chromium');
    const edge = '/opt/microsoft/msedge/microsoft-edge';
    expect(findBrowser({ platform: 'linux', env, isProgram: only(edge) })).toBe(edge);
  });

  it('never takes a program out of the folder it happens to be started in', () => {
    const candidates = getBrowserCandidates('linux', { PATH: ':.:bin:/usr/bin' });
    expect(candidates.every((path) => path.startsWith('/'))).toBe(true);
  });

  it('finds an app bundle on a Mac, the user’s own included', () => {
    const path = '/Users/ada/Applications/Chromium.app/Contents/MacOS/Chromium';
    expect(findBrowser({ platform: 'darwin', env: { HOME: '/Users/ada' }, isProgram: only(path) })).toBe(path);
  });

  it('finds Edge under either program folder on Windows', () => {
    const path = 'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe';
    const env = { PROGRAMFILES: 'C:\\Program Files', 'PROGRAMFILES(X86)': 'C:\\Program Files (x86)' };
    expect(findBrowser({ platform: 'win32', env, isProgram: only(path) })).toBe(path);
  });

  it('tries nothing but the browser that KERFGRIP_BROWSER names', () => {
    const env = { PATH: '/usr/bin', KERFGRIP_BROWSER: '/opt/mine/browser' };
    expect(findBrowser({ platform: 'linux', env, isProgram: only('/usr/bin/chromium') })).toBeUndefined();
    expect(findBrowser({ platform: 'linux', env, isProgram: () => true })).toBe('/opt/mine/browser');
  });

  it('says that there is none', () => {
    expect(findBrowser({ platform: 'linux', env: {}, isProgram: () => false })).toBeUndefined();
  });
});

describe('isProgram', () => {
  it('is true for a program and false for a folder, a plain file and nothing', () => {
    expect(isProgram(process.execPath)).toBe(true);
    expect(isProgram(import.meta.dirname)).toBe(false);
    expect(isProgram(import.meta.filename)).toBe(false);
    expect(isProgram('/no/such/program')).toBe(false);
  });
});
