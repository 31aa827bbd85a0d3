import { createHash } from 'node:crypto';

/** A stamp of a file's content: two files with the same stamp hold the same bytes. 64 hexadecimal digits (SHA-256). */
export function getContentStamp(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}
