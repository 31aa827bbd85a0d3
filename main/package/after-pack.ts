import { join } from 'node:path';
import { type AfterPackContext, Arch, type LinuxPackager } from 'electron-builder';
import { setFuses } from './set-fuses';

function getProgramPath({ appOutDir, electronPlatformName, packager }: AfterPackContext): string {
  const { productFilename } = packager.appInfo;
  if (electronPlatformName === 'darwin') return join(appOutDir, `${productFilename}.app`);
  if (electronPlatformName === 'win32') return join(appOutDir, `${productFilename}.exe`);
  return join(appOutDir, (packager as LinuxPackager).executableName);
}

/** What electron-builder runs once a program is packed, before it is signed and put into installers. */
export async function afterPack(context: AfterPackContext): Promise<void> {
  const isResealed = context.electronPlatformName === 'darwin' && context.arch !== Arch.x64;
  const { version } = context.packager.info.framework;
  console.log(`  • ${await setFuses(getProgramPath(context), version, isResealed)}`);
}
