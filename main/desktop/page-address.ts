import { readPageFile } from '../services/page-files';
import { PAGE_HEADERS } from '../services/page-policy';

/** A scheme of our own: the page has an origin, which a file address has not, and can reach nothing else by it. */
export const PAGE_SCHEME = 'kerfgrip';
export const PAGE_ADDRESS = `${PAGE_SCHEME}://planner/`;

/** Whether an address is the planner's own page. */
export function getIsOwnAddress(address: string): boolean {
  return (
    address === PAGE_ADDRESS ||
    address.startsWith(`${PAGE_ADDRESS}index.html`) ||
    address.startsWith(`${PAGE_ADDRESS}#`)
  );
}

/** Whether the page may load from an address at all: its own files, and what it makes itself. */
export function getMayLoad(address: string): boolean {
  return address.startsWith(PAGE_ADDRESS) || address.startsWith('blob:') || address.startsWith('data:');
}

/** Answers a request of the page for one of its own files. */
export async function answerPageRequest(pageFolder: string, address: string): Promise<Response> {
  const { host, pathname } = new URL(address);
  const file = host === 'planner' ? await readPageFile(pageFolder, pathname) : null;
  const headers = { ...PAGE_HEADERS, 'content-type': file?.type ?? 'text/plain; charset=utf-8' };
  if (file === null) return new Response('There is nothing at this address.', { status: 404, headers });
  return new Response(new Uint8Array(file.content), { status: 200, headers });
}
