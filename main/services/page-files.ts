import { readFile, realpath, stat } from 'node:fs/promises';
import { extname, join, sep } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.ttf': 'font/ttf',
  '.woff2': 'font/woff2',
};

export interface PageFile {
  type: string;
  content: Buffer;
}

/**
 * Reads one of the page's own files.
 *
 * @param folder the built page; nothing outside it is ever read, links followed
 * @param urlPath path of the address as it came, percent signs and all, such as "/assets/index.js"
 * @returns the file; `null` when there is none of that name, or none of a kind the page consists of
 */
export async function readPageFile(folder: string, urlPath: string): Promise<PageFile | null> {
  const path = getPath(urlPath);
  const type = path === null ? undefined : TYPES[extname(path).toLowerCase()];
  if (path === null || type === undefined) return null;
  try {
    const root = await realpath(folder);
    const full = await realpath(join(root, path));
    if (!full.startsWith(root + sep) || !(await stat(full)).isFile()) return null;
    return { type, content: await readFile(full) };
  } catch {
    return null;
  }
}

function getPath(urlPath: string): string | null {
  let path: string;
  try {
    path = decodeURIComponent(urlPath);
  } catch {
    return null;
  }
  if (path === '/') return 'index.html';
  const steps = path.split('/');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: no file of the page has them.
  const isOdd = /[\\:\u0000-\u001f]/.test(path) || steps.some((step) => step === '..' || step === '.');
  return !path.startsWith('/') || isOdd || path.length > 500 ? null : path.slice(1);
}
