import { basename } from 'node:path';
import { ExpectedProblem } from './expected-problem';

/** What a refusal of the system means, by its code; each is the end of a sentence on a file or folder. */
const MEANINGS: Readonly<Record<string, string>> = {
  ENOENT: 'it or its folder is not there',
  ENOTDIR: 'part of its path is a file and not a folder',
  EISDIR: 'it is a folder and not a file',
  EACCES: 'you are not allowed to use it',
  EPERM: 'the system does not allow it',
  EROFS: 'it is on a disk that can only be read',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is used up',
  EFBIG: 'it is larger than the disk takes',
  ENAMETOOLONG: 'its name or path is too long for the system',
  ELOOP: 'its links lead in a circle',
  EBUSY: 'another program is using it',
  ETXTBSY: 'another program is using it',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
  EIO: 'the disk reports a fault',
  EEXIST: 'a file of that name is there already',
  EINVAL: 'the system does not take that name',
  ERR_INVALID_ARG_VALUE: 'its name has a character that no file name can hold',
};

/** The system's code of an error, such as ENOSPC; '' when it has none. */
export function getErrorCode(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

/** What the system threw, where an error only passes it on. */
function getSystemError(error: unknown): unknown {
  return error instanceof Error && getErrorCode(error) === '' && error.cause !== undefined ? error.cause : error;
}

/** A name short enough for a sentence. */
export function getShortName(path: string): string {
  const name = basename(path) || path;
  return name.length <= 80 ? name : `${name.slice(0, 50)}…${name.slice(-20)}`;
}

/**
 * The problem to tell the user when the system refused something.
 *
 * @param error what the system threw; an `ExpectedProblem` is given back as it is
 * @param failure what failed, as the start of the sentence, such as "The plan could not be saved"
 * @param path the file or folder
 */
export function buildFileProblem(error: unknown, failure: string, path: string): ExpectedProblem {
  if (error instanceof ExpectedProblem) return error;
  const code = getErrorCode(getSystemError(error));
  const meaning = MEANINGS[code] ?? `the system says ${code === '' ? String(error) : code}`;
  return new ExpectedProblem(
    `file-${code === '' ? 'error' : code.toLowerCase()}`,
    `${failure}: ${meaning}.`,
    path,
    error,
  );
}

/**
 * A problem found in what a file holds, told with the file's name.
 *
 * @param found what is wrong, as a whole sentence
 * @param failure what failed, as the start of the sentence
 */
export function nameTheFile(
  found: { code: string; sentence: string; where: string },
  failure: string,
): ExpectedProblem {
  const rest = found.sentence.charAt(0).toLowerCase() + found.sentence.slice(1);
  return new ExpectedProblem(found.code, `${failure}: ${rest}`, found.where);
}
