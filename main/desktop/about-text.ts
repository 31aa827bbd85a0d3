import { CAUTIONS } from '../../shared/findings/cautions';

/**
 * What the about box says: the cautions, versions to quote when something goes wrong, and where licences are.
 *
 * @param licencesFolder the folder that a packaged program brings them in; `undefined` where it is not packaged
 */
export function getAboutText(
  version: string,
  versions: Readonly<Record<string, string | undefined>>,
  licencesFolder: string | undefined,
): string {
  const runtime = [
    `Electron ${versions.electron ?? '?'}`,
    `Chromium ${versions.chrome ?? '?'}`,
    `Node.js ${versions.node ?? '?'}`,
  ].join(', ');
  const licences = licencesFolder === undefined ? [] : [`Licences of all that comes with it: ${licencesFolder}`];
  return [`Version ${version}. ${runtime}.`, ...CAUTIONS, ...licences].join('\n\n');
}
