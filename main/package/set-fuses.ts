import { FuseV1Options, FuseVersion, flipFuses, getCurrentFuseWire } from '@electron/fuses';

/** Electron has had fuses since this version (electron/electron, docs/tutorial/fuses.md). */
const FIRST_WITH_FUSES = 12;

/** Nobody can run the program as plain Node, debug its main process or put other code in its place. */
export const FUSES = {
  [FuseV1Options.RunAsNode]: false,
  [FuseV1Options.EnableCookieEncryption]: false,
  [FuseV1Options.EnableNodeOptionsEnvironmentVariable]: false,
  [FuseV1Options.EnableNodeCliInspectArguments]: false,
  [FuseV1Options.EnableEmbeddedAsarIntegrityValidation]: true,
  [FuseV1Options.OnlyLoadAppFromAsar]: true,
  [FuseV1Options.LoadBrowserProcessSpecificV8Snapshot]: false,
  [FuseV1Options.GrantFileProtocolExtraPrivileges]: false,
} as const;

type FuseWire = Awaited<ReturnType<typeof getCurrentFuseWire>>;

async function readWire(program: string): Promise<FuseWire | undefined> {
  try {
    return await getCurrentFuseWire(program);
  } catch (error) {
    if (error instanceof Error && error.message.includes('sentinel')) return undefined;
    throw error;
  }
}

/** Names of the fuses that are not as they should be. */
function listWrongFuses(wire: FuseWire | undefined): string[] {
  return Object.entries(FUSES).flatMap(([index, isOn]) => {
    const fuse = Number(index) as keyof typeof FUSES;
    // Each holds a letter: '1' on, '0' off.
    const state = wire?.[fuse] as number | undefined;
    return state === (isOn ? '1' : '0').charCodeAt(0) ? [] : [FuseV1Options[fuse]];
  });
}

/**
 * Sets the fuses of a packaged program and reads them back.
 *
 * @param program the runtime's program as it was packed: a file, or on macOS the folder whose name ends in `.app`
 * @param version the runtime's version
 * @param isResealed whether the seal that Apple silicon asks of a program is made again over what was changed
 * @returns one sentence for whoever packages: what was set, or that a runtime this old has no fuses
 * @throws Error when a runtime that should have fuses has none, or one of them is not as it was set
 */
export async function setFuses(program: string, version: string, isResealed: boolean): Promise<string> {
  if ((await readWire(program)) === undefined) {
    if (Number.parseInt(version, 10) >= FIRST_WITH_FUSES) {
      throw new Error(`Electron ${version} should have fuses, but none were found in ${program}.`);
    }
    return `Electron ${version} is too old to have fuses, so none were set: this package is for tests, not for users.`;
  }
  await flipFuses(program, { version: FuseVersion.V1, resetAdHocDarwinSignature: isResealed, ...FUSES });
  const wrong = listWrongFuses(await readWire(program));
  if (wrong.length > 0) throw new Error(`These fuses of Electron ${version} could not be set: ${wrong.join(', ')}.`);
  return `All ${Object.keys(FUSES).length} fuses of Electron ${version} are set.`;
}
