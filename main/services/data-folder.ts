import { homedir } from 'node:os';
import { posix, win32 } from 'node:path';

/**
 * The folder where the program keeps the shop library, the recovery journal, earlier versions and the list of recent
 * plans.
 *
 * @param platform as `process.platform`
 * @param env as `process.env`; KERFGRIP_DATA names the folder outright
 * @param home the user's home folder
 * @returns `%APPDATA%\Kerfgrip`, `~/Library/Application Support/Kerfgrip`, or `$XDG_DATA_HOME/kerfgrip`
 */
export function getDataFolder(
  platform: NodeJS.Platform = process.platform,
  env: Readonly<Record<string, string | undefined>> = process.env,
  home: string = homedir(),
): string {
  if (env.KERFGRIP_DATA) return env.KERFGRIP_DATA;
  if (platform === 'win32') {
    return win32.join(env.APPDATA ?? win32.join(home, 'AppData', 'Roaming'), 'Kerfgrip');
  }
  if (platform === 'darwin') return posix.join(home, 'Library', 'Application Support', 'Kerfgrip');
  // The XDG Base Directory specification tells to ignore a relative path.
  const base = env.XDG_DATA_HOME?.startsWith('/') ? env.XDG_DATA_HOME : posix.join(home, '.local', 'share');
  return posix.join(base, 'kerfgrip');
}
