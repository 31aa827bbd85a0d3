import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { rename } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ReplaceRefused, writeFileSafely } from '../../../main/services/write-file-safely';
import { mountSmallDisk, NEEDS_ROOT } from './small-disk';
import { makeTempFolder } from './temp-folder';

const refusal = (code: string): Error => Object.assign(new Error(code), { code });

describe('a file is written whole or not at all', () => {
  test('new content takes the place of the old, and nothing is left beside it', async () => {
    const folder = await makeTempFolder();
    const path = join(folder, 'hoist.kgplan');
    await writeFileSafely(path, 'first');
    await writeFileSafely(path, 'second');
    expect(readFileSync(path, 'utf8')).toBe('second');
    expect(readdirSync(folder)).toEqual(['hoist.kgplan']);
  });

  test('a rename that is refused for a moment is tried again', async () => {
    const path = join(await makeTempFolder(), 'hoist.kgplan');
    writeFileSync(path, 'old');
    const waits: number[] = [];
    let refusals = 3;
    await writeFileSafely(path, 'new', {
      rename: async (from, to) => {
        refusals -= 1;
        if (refusals >= 0) throw refusal('EBUSY');
        await rename(from, to);
      },
      wait: async (ms) => void waits.push(ms),
    });
    expect(readFileSync(path, 'utf8')).toBe('new');
    expect(waits).toHaveLength(3);
  });

  test('a rename that stays refused is given up after a bounded time, the old file whole', async () => {
    const folder = await makeTempFolder();
    const path = join(folder, 'hoist.kgplan');
    writeFileSync(path, 'old');
    let waitedMs = 0;
    const writing = writeFileSafely(path, 'new', {
      rename: async () => {
        throw refusal('EPERM');
      },
      wait: async (ms) => {
        waitedMs += ms;
      },
    });
    await expect(writing).rejects.toBeInstanceOf(ReplaceRefused);
    expect(waitedMs).toBeGreaterThan(1000);
    expect(waitedMs).toBeLessThan(5000);
    expect(readFileSync(path, 'utf8')).toBe('old');
    expect(readdirSync(folder)).toEqual(['hoist.kgplan']);
  });

  test('a disk that fills up in the middle leaves the old file whole', async ({ skip }) => {
    const folder = await makeTempFolder();
    const disk = join(folder, 'disk');
    mkdirSync(disk);
    if (!mountSmallDisk(disk, '1m')) skip(NEEDS_ROOT);
    const path = join(disk, 'hoist.kgplan');
    writeFileSync(path, 'x'.repeat(600_000));
    await expect(writeFileSafely(path, 'y'.repeat(600_000))).rejects.toMatchObject({ code: 'ENOSPC' });
    expect(readFileSync(path, 'utf8')).toBe('x'.repeat(600_000));
    expect(readdirSync(disk)).toEqual(['hoist.kgplan']);
  });

  test('two hundred writes at once leave the last one asked for', async () => {
    const folder = await makeTempFolder();
    const path = join(folder, 'hoist.kgplan');
    const texts = Array.from({ length: 200 }, (_, index) => `${index} `.repeat(500));
    await Promise.all(texts.map((text) => writeFileSafely(path, text)));
    expect(readFileSync(path, 'utf8')).toBe(texts.at(-1));
    expect(readdirSync(folder)).toHaveLength(1);
  });

  test('a link stays a link and its target is written', async () => {
    const folder = await makeTempFolder();
    const target = join(folder, 'target.kgplan');
    const link = join(folder, 'link.kgplan');
    writeFileSync(target, 'old');
    symlinkSync(target, link);
    await writeFileSafely(link, 'new');
    expect(readFileSync(target, 'utf8')).toBe('new');
    expect(readFileSync(link, 'utf8')).toBe('new');
  });

  test('the mode of the file is kept', async () => {
    const path = join(await makeTempFolder(), 'hoist.kgplan');
    writeFileSync(path, 'old');
    chmodSync(path, 0o640);
    await writeFileSafely(path, 'new');
    expect(statSync(path).mode & 0o777).toBe(0o640);
  });

  test('a folder in place of the file, a missing folder and a name that is too long are refused', async () => {
    const folder = await makeTempFolder();
    mkdirSync(join(folder, 'hoist.kgplan'));
    await expect(writeFileSafely(join(folder, 'hoist.kgplan'), 'x')).rejects.toThrow();
    await expect(writeFileSafely(join(folder, 'gone', 'a.kgplan'), 'x')).rejects.toMatchObject({ code: 'ENOENT' });
    await expect(writeFileSafely(join(folder, 'n'.repeat(4000)), 'x')).rejects.toMatchObject({ code: 'ENAMETOOLONG' });
    expect(readdirSync(folder)).toEqual(['hoist.kgplan']);
  });

  test('a name in another script at the limit of the system is saved', async () => {
    const folder = await makeTempFolder();
    const path = join(folder, `${'зубчатка歯車'.repeat(11)}.kgplan`);
    await writeFileSafely(path, 'x');
    expect(existsSync(path)).toBe(true);
  });
});
