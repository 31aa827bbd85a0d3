import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { setFuses } from '../../../main/package/set-fuses';
import { makeTempFolder } from '../services/temp-folder';

/** What stands before the fuses in every runtime that has them (electron/electron, docs/tutorial/fuses.md). */
const SENTINEL = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX';

/** The program's fuses in the order of the wire, as that page gives it: on where it holds a 1. */
const EXPECTED = '00001100';

/** A program with a wire of this many fuses, each on or off the other way round, once for each processor it is for. */
async function writeProgram(fuses: string, processors = 1): Promise<string> {
  const filler = Buffer.from(Array.from({ length: 5000 }, (_, index) => (index * 37) % 256));
  const wire = Buffer.concat([Buffer.from(SENTINEL), Buffer.from([1, fuses.length]), Buffer.from(fuses)]);
  const program = join(await makeTempFolder(), 'kerfgrip');
  const slices = Array.from({ length: processors }, () => [filler, wire]).flat();
  await writeFile(program, Buffer.concat([...slices, filler]));
  return program;
}

async function readWires(program: string): Promise<string[]> {
  const text = await readFile(program, 'latin1');
  return text
    .split(SENTINEL)
    .slice(1)
    .map((after) => after.slice(2, 2 + after.charCodeAt(1)));
}

const flip = (fuses: string): string => [...fuses].map((fuse) => (fuse === '1' ? '0' : '1')).join('');

test('every fuse is set, and nothing else of the program is touched', async () => {
  const program = await writeProgram(flip(EXPECTED));
  const before = await readFile(program, 'latin1');
  expect(await setFuses(program, '45.4.1', false)).toBe('All 8 fuses of Electron 45.4.1 are set.');
  expect(await readWires(program)).toEqual([EXPECTED]);
  expect(await readFile(program, 'latin1')).toBe(before.replace(flip(EXPECTED), EXPECTED));
});

test('a fuse that a newer runtime has in addition stays as it came', async () => {
  const program = await writeProgram(`${flip(EXPECTED)}1`);
  await setFuses(program, '46.0.0', false);
  expect(await readWires(program)).toEqual([`${EXPECTED}1`]);
});

test('both halves of a program for two kinds of processor are set', async () => {
  const program = await writeProgram(flip(EXPECTED), 2);
  await setFuses(program, '45.4.1', false);
  expect(await readWires(program)).toEqual([EXPECTED, EXPECTED]);
});

test('a runtime that lacks one of the fuses is refused', async () => {
  await expect(setFuses(await writeProgram('111111'), '14.0.0', false)).rejects.toThrow(/not long enough/);
});

test('a runtime that should have fuses and has none is refused', async () => {
  const program = join(await makeTempFolder(), 'kerfgrip');
  await writeFile(program, 'no fuses here');
  await expect(setFuses(program, '12.0.0', false)).rejects.toThrow(/^Electron 12.0.0 should have fuses, but none/);
});

test('a runtime from before there were fuses is left as it is, and said to be for tests', async () => {
  const program = join(await makeTempFolder(), 'kerfgrip');
  await writeFile(program, 'no fuses here');
  expect(await setFuses(program, '9.4.1', false)).toMatch(/too old to have fuses.*for tests, not for users/);
  expect(await readFile(program, 'utf8')).toBe('no fuses here');
});

test('a program that is not there is a fault, however old the runtime', async () => {
  await expect(setFuses(join(await makeTempFolder(), 'gone'), '9.4.1', false)).rejects.toThrow(/ENOENT/);
});
