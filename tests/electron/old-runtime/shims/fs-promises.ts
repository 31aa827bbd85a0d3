// Node 12 has these as `fs.promises`, removes trees by `rmdir`, and its open files make no streams.
import { createReadStream, promises, type RmOptions } from 'node:fs';

export const { access, mkdir, readdir, readFile, realpath, rename, stat, unlink, utimes, writeFile } = promises;

export async function rm(path: string, options: RmOptions = {}): Promise<void> {
  try {
    const isFolder = (await promises.lstat(path)).isDirectory();
    if (isFolder) await promises.rmdir(path, { recursive: options.recursive === true });
    else await promises.unlink(path);
  } catch (error) {
    if (options.force !== true || (error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
}

export async function open(...args: Parameters<typeof promises.open>): Promise<promises.FileHandle> {
  const file = await promises.open(...args);
  if (file.createReadStream !== undefined) return file;
  return Object.assign(file, {
    createReadStream: (options: object) => createReadStream('', { ...options, fd: file.fd, autoClose: false }),
  });
}
