import { extname } from 'node:path';
import { ExpectedProblem } from './expected-problem';

/** The longest file name that every usual file system takes, bytes. */
const LONGEST_NAME_BYTES = 255;

/** Names that mean a device on Windows, with any ending. */
const DEVICE_NAME = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;

/**
 * A file name as it will be on disk, from one that a user typed.
 *
 * @param name name without folder
 * @param ending the usual ending with its dot, added when the name does not have it
 * @throws ExpectedProblem when no file can have that name
 */
export function parseFileName(name: string, ending: string): string {
  const refuse = (why: string): never => {
    throw new ExpectedProblem('bad-file-name', `File name: ${why}`, 'name');
  };
  const trimmed = name.trim();
  if (trimmed === '') refuse('type a name.');
  const full = extname(trimmed).toLowerCase() === ending ? trimmed : `${trimmed}${ending}`;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: file names cannot hold them.
  if (/[\u0000-\u001f\u007f<>:"/\\|?*]/.test(full))
    refuse('leave out the characters < > : " / \\ | ? * and line breaks.');
  if (trimmed.startsWith('.')) refuse('a name that starts with a point is hidden, so start with another character.');
  if (DEVICE_NAME.test(full)) refuse(`"${trimmed}" means a device on some systems, so choose another.`);
  if (Buffer.byteLength(full) > LONGEST_NAME_BYTES) refuse('it is too long, so shorten it.');
  return full;
}
