import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  findElectron,
  getIsTooOld,
  getProgressText,
  readElectronVersion,
  runGuardedFetch,
} from '../../../main/start/electron-binary';

describe('findElectron', () => {
  let folder = '';

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'kerfgrip-electron-'));
    writeFileSync(join(folder, 'package.json'), JSON.stringify({ version: '45.4.1' }));
  });

  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  function unpack(into: string, version: string): string {
    mkdirSync(into, { recursive: true });
    writeFileSync(join(into, 'version'), `${version}\n`);
    writeFileSync(join(into, 'electron'), '');
    return join(into, 'electron');
  }

  it('finds no binary in a package that has not fetched it', () => {
    expect(findElectron(folder, 'linux', {})).toBeUndefined();
  });

  it('takes the binary of the package’s own version, and no other', () => {
    const program = unpack(join(folder, 'dist'), 'v45.4.1');
    expect(findElectron(folder, 'linux', {})).toBe(program);
    unpack(join(folder, 'dist'), '44.0.0');
    expect(findElectron(folder, 'linux', {})).toBeUndefined();
  });

  it('takes the Electron that ELECTRON_OVERRIDE_DIST_PATH names, whatever its version', () => {
    const program = unpack(join(folder, 'other'), '9.4.1');
    const env = { ELECTRON_OVERRIDE_DIST_PATH: join(folder, 'other') };
    expect(findElectron(folder, 'linux', env)).toBe(program);
  });

  it('knows by its folder an Electron that is too old for the program', () => {
    unpack(join(folder, 'other'), 'v9.4.1');
    expect(readElectronVersion(join(folder, 'other'))).toBe('9.4.1');
    expect(readElectronVersion(join(folder, 'none'))).toBeUndefined();
    expect(['9.4.1', '24.8.8', '25.0.0', '45.4.1'].map(getIsTooOld)).toEqual([true, true, false, false]);
  });
});

describe('runGuardedFetch', () => {
  const waits = { firstByteMs: 30, stallMs: 30 };
  const never = (signal: AbortSignal): Promise<never> =>
    new Promise((_, reject) => signal.addEventListener('abort', () => reject(signal.reason)));

  it('gives up a download that never answers, and aborts it', async () => {
    let aborted = false;
    const reason = await runGuardedFetch(
      (signal) => {
        signal.addEventListener('abort', () => {
          aborted = true;
        });
        return never(signal);
      },
      () => undefined,
      waits,
    );
    expect(reason).toBe('the download did not answer within 0.03 s');
    expect(aborted).toBe(true);
  });

  it('gives up a download that begins and then stalls', async () => {
    const reason = await runGuardedFetch(
      (signal, onProgress) => {
        onProgress({ transferred: 1, total: 100 });
        return never(signal);
      },
      () => undefined,
      waits,
    );
    expect(reason).toBe('the download stopped for 0.03 s');
  });

  it('lets a download take longer than the first wait while bytes come, and passes each piece on', async () => {
    const seen: number[] = [];
    const reason = await runGuardedFetch(
      async (_signal, onProgress) => {
        for (let piece = 1; piece <= 8; piece++) {
          await new Promise((resolve) => setTimeout(resolve, 10));
          onProgress({ transferred: piece, total: 8 });
        }
      },
      ({ transferred }) => seen.push(transferred),
      { firstByteMs: 40, stallMs: 2_000 },
    );
    expect(reason).toBeUndefined();
    expect(seen).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('says why the network refused', async () => {
    const refused = new Error('fetch failed', { cause: new Error('getaddrinfo ENOTFOUND') });
    expect(
      await runGuardedFetch(
        () => Promise.reject(refused),
        () => undefined,
        waits,
      ),
    ).toBe('getaddrinfo ENOTFOUND');
  });
});

describe('getProgressText', () => {
  it('shows megabytes and percent, and no percent where the size is unknown', () => {
    expect(getProgressText({ transferred: 30_400_000, total: 121_600_000 })).toBe(
      'Fetching Electron: 30 of 122 MB, 25 %',
    );
    expect(getProgressText({ transferred: 2_000_000, total: null })).toBe('Fetching Electron: 2 MB');
  });
});
