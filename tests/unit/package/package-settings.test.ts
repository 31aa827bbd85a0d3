import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from '../../run/run-program';

const settings = readFileSync(join(ROOT, 'electron-builder.yml'), 'utf8');

/** The lines that are indented under a name of the settings. */
function getBlock(name: string): string {
  const [, block = ''] = new RegExp(`^${name}:\\n((?:[ ].*\\n)+)`, 'm').exec(settings) ?? [];
  return block;
}

test('plans belong to the program on each system: by name and role, by media type, by an icon', () => {
  const block = getBlock('fileAssociations');
  // Windows and macOS: extension, name, role; Linux: the media type.
  expect(block).toMatch(/ext: kgplan\n/);
  expect(block).toMatch(/name: Kerfgrip plan\n/);
  expect(block).toMatch(/role: Editor\n/);
  expect(block).toMatch(/mimeType: application\/x-kerfgrip-plan\n/);
  expect(block).toMatch(/icon: kerfgrip\n/);
  const magic = (file: string): string => readFileSync(join(ROOT, 'assets/icons', file)).toString('latin1', 0, 4);
  expect(magic('kerfgrip.icns')).toBe('icns');
  expect(magic('kerfgrip.ico')).toBe('\0\0\x01\0');
});

test('there is a package for each system', () => {
  expect(getBlock('linux')).toMatch(/target: \[AppImage, deb\]/);
  expect(getBlock('win')).toMatch(/target: \[nsis, portable\]/);
  expect(getBlock('mac')).toMatch(/target: \[dmg\]/);
});

test('one name binds the windows to the program: the Windows taskbar’s and that of a Linux dock', () => {
  const [, appId] = /^appId: (.*)$/m.exec(settings) ?? [];
  expect(readFileSync(join(ROOT, 'main/desktop/main.ts'), 'utf8')).toContain(`setAppUserModelId('${appId}')`);
  const { desktopName } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { desktopName: string };
  expect(desktopName).toBe('kerfgrip.desktop');
  expect(getBlock('linux')).toMatch(/syncDesktopName: true/);
});
