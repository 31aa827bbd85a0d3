// Node 12 has no `randomUUID`.
import { createHash, randomBytes } from 'node:crypto';

export { createHash, randomBytes };

/** A random UUID, version 4 (RFC 9562, section 5.4). */
export function randomUUID(): string {
  const bytes = randomBytes(16);
  bytes.writeUInt8((bytes.readUInt8(6) & 0x0f) | 0x40, 6);
  bytes.writeUInt8((bytes.readUInt8(8) & 0x3f) | 0x80, 8);
  return bytes.toString('hex').replace(/(.{8})(.{4})(.{4})(.{4})(.{12})/, '$1-$2-$3-$4-$5');
}
