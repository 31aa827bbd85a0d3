import { ExpectedProblem } from './expected-problem';

/** The first bytes of every PNG (ISO/IEC 15948, 5.2) and the name of its first chunk, from byte 12. */
const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const FIRST_CHUNK = 'IHDR';
const LAST_CHUNK = 'IEND';

/**
 * The bytes of a picture that the page has drawn.
 *
 * @param pngBase64 a PNG as base64
 * @throws ExpectedProblem `not-a-picture` when it is anything else: the page writes no other kind of file this way
 */
export function parsePicture(pngBase64: string): Uint8Array {
  const bytes = Buffer.from(pngBase64, 'base64');
  const isPicture =
    bytes.subarray(0, SIGNATURE.length).equals(SIGNATURE) &&
    bytes.subarray(12, 16).toString('latin1') === FIRST_CHUNK &&
    bytes.subarray(-8, -4).toString('latin1') === LAST_CHUNK;
  if (!isPicture) throw new ExpectedProblem('not-a-picture', 'What was to be saved is no PNG picture.', 'pngBase64');
  return bytes;
}
