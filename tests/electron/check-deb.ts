import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

function run(program: string, args: readonly string[], env: NodeJS.ProcessEnv = process.env): string {
  const { status, error, stdout, stderr } = spawnSync(program, args, { encoding: 'utf8', env });
  assert.equal(error, undefined);
  assert.equal(status, 0, `${program}: ${stdout}${stderr}`);
  return stdout;
}

/** Unpacks a Debian package. @returns the folder of the program in it */
export function unpackDeb(deb: string, folder: string): string {
  run('dpkg-deb', ['--extract', deb, folder]);
  return join(folder, 'opt/Kerfgrip');
}

/**
 * Checks what a desktop is told of the program, by the desktop's own tools where there are any.
 *
 * @param deb the package
 * @param folder where it was unpacked
 * @throws AssertionError where an entry, the media type of plans, an icon or a field is missing or wrong
 */
export function checkDeb(deb: string, folder: string): void {
  const share = join(folder, 'usr/share');
  const entryFile = join(share, 'applications/kerfgrip.desktop');
  const entry = readFileSync(entryFile, 'utf8').split('\n');
  for (const line of [
    'Name=Kerfgrip',
    'Exec=/opt/Kerfgrip/kerfgrip %F',
    'Icon=kerfgrip',
    'StartupWMClass=kerfgrip',
    'MimeType=application/x-kerfgrip-plan;',
    'Categories=Science;Engineering;',
    'Comment=Plans how small milled parts come out of bar stock: the order, the setup and a printed fixture sheet.',
  ]) {
    assert.ok(entry.includes(line), `the desktop entry lacks "${line}": ${entry.join(' | ')}`);
  }
  assert.equal(run('desktop-file-validate', [entryFile]), '');

  // The desktop's own database, made of this package alone, says what a plan is.
  run('update-mime-database', [join(share, 'mime')]);
  const plan = join(folder, 'home/a plan.kgplan');
  mkdirSync(join(folder, 'home'), { recursive: true });
  writeFileSync(plan, '{}');
  const kind = run('xdg-mime', ['query', 'filetype', plan], {
    ...process.env,
    XDG_DATA_DIRS: share,
    XDG_DATA_HOME: join(folder, 'home'),
    HOME: join(folder, 'home'),
  });
  assert.equal(kind.trim(), 'application/x-kerfgrip-plan');
  for (const size of [16, 32, 48, 64, 128, 256, 512]) {
    const icon = readFileSync(join(share, `icons/hicolor/${size}x${size}/apps/kerfgrip.png`));
    assert.equal(icon.readUInt32BE(16), size, `the icon of ${size} pixels is ${icon.readUInt32BE(16)} wide`);
  }

  const program = join(folder, 'opt/Kerfgrip');
  assert.ok((statSync(join(program, 'kerfgrip')).mode & 0o111) !== 0);
  for (const file of ['page.txt', 'program.txt', 'drawings.txt', 'kerfgrip.txt']) {
    assert.ok(existsSync(join(program, 'resources/licences', file)), `${file} is missing`);
  }
  const fields = run('dpkg-deb', ['--field', deb]);
  assert.match(fields, /^Package: kerfgrip$/m);
  assert.match(fields, /^Architecture: amd64$/m);
  assert.match(fields, /^Depends: .*libgtk-3-0.*libnss3/m);
  // Afterwards desktops look for programs and kinds of file anew, and the program is found by its name.
  const script = run('dpkg-deb', ['--info', deb, 'postinst']);
  for (const step of ['update-mime-database', 'update-desktop-database', "/usr/bin/kerfgrip'"]) {
    assert.ok(script.includes(step), `the package does not run ${step} once it is installed`);
  }
}
