import { CAUTIONS } from '../../shared/findings/cautions';

/** What the about box says: the cautions, and versions to quote when something goes wrong. */
export function getAboutText(version: string, versions: Readonly<Record<string, string | undefined>>): string {
  const runtime = [
    `Electron ${versions.electron ?? '?'}`,
    `Chromium ${versions.chrome ?? '?'}`,
    `Node.js ${versions.node ?? '?'}`,
  ].join(', ');
  return [`Version ${version}. ${runtime}.`, ...CAUTIONS].join('\n\n');
}
