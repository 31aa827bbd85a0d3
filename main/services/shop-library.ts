import { mkdir } from 'node:fs/promises';
import { dirname } from 'node:path';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import type { Shop } from '../../shared/model/shop';
import { getContentStamp } from './content-stamp';
import { ExpectedProblem } from './expected-problem';
import { buildFileProblem } from './file-problem';
import type { KeptVersions } from './kept-versions';
import { createPathQueue } from './path-queue';
import { readFileLimited } from './read-file-limited';
import { buildShopContent, parseShopContent } from './shop-text';
import { writeFileSafely } from './write-file-safely';

export interface LoadedShop {
  shop: Shop;
  /** Sentences to show once. */
  remarks: string[];
}

/** The user's own shop file. One that cannot be read is left as it is, and the usual shop is used meanwhile. */
export interface ShopLibrary {
  load(): Promise<LoadedShop>;
  /** What is in the file now, without taking it for what is worked on; null where it cannot be read. */
  peek(): Promise<Shop | null>;
  /**
   * @returns the new stamp
   * @throws ExpectedProblem `shop-unreadable` or `file-changed` when the file there is not the one that was read
   */
  save(shop: Shop): Promise<string>;
}

export interface ShopLibraryParts {
  file: string;
  versions: KeptVersions;
}

/** What was last known to be in the file's place. */
type Known = { kind: 'nothing' } | { kind: 'content'; stamp: string } | { kind: 'unreadable' };

export function createShopLibrary({ file, versions }: ShopLibraryParts): ShopLibrary {
  const queue = createPathQueue();
  let known: Known = { kind: 'unreadable' };

  const load = async (): Promise<LoadedShop> => {
    const content = await readShopFile(file);
    if (content === null) {
      known = { kind: 'nothing' };
      return { shop: defaultShop, remarks: [] };
    }
    try {
      if (content instanceof ExpectedProblem) throw content;
      const read = parseShopContent(content.toString('utf8'), 'The shop file');
      known = { kind: 'content', stamp: getContentStamp(content) };
      return read;
    } catch (error) {
      known = { kind: 'unreadable' };
      if (!(error instanceof ExpectedProblem)) throw error;
      const sentence = `${error.problem.sentence} The built-in shop is used for now, and ${file} is left as it is.`;
      return { shop: defaultShop, remarks: [sentence] };
    }
  };

  const checkUntouched = (before: Buffer | ExpectedProblem | null): void => {
    if (before === null) return;
    if (known.kind === 'unreadable' || before instanceof ExpectedProblem) {
      throw new ExpectedProblem(
        'shop-unreadable',
        `The shop file could not be read, so it is not written over: move or rename ${file} to start a new one.`,
        file,
      );
    }
    if (known.kind === 'content' && known.stamp === getContentStamp(before)) return;
    throw new ExpectedProblem(
      'file-changed',
      'The shop file was changed by another window since this one read it: close this window and open it again to take it up.',
      file,
    );
  };

  return {
    load,
    async peek() {
      const content = await readShopFile(file);
      try {
        return content instanceof Buffer ? parseShopContent(content.toString('utf8'), 'The shop file').shop : null;
      } catch {
        return null;
      }
    },
    save(shop) {
      return queue.run(file, async () => {
        const content = buildShopContent(shop);
        const before = await readShopFile(file);
        checkUntouched(before);
        if (before instanceof Buffer) await versions.keep(file, before).catch(() => undefined);
        try {
          await mkdir(dirname(file), { recursive: true });
          await writeFileSafely(file, content);
        } catch (error) {
          throw buildFileProblem(error, 'The shop file was not saved', file);
        }
        known = { kind: 'content', stamp: getContentStamp(content) };
        return known.stamp;
      });
    },
  };
}

/** The content; `null` when there is no file; the problem when there is one that cannot be read. */
async function readShopFile(file: string): Promise<Buffer | ExpectedProblem | null> {
  try {
    return await readFileLimited(file);
  } catch (error) {
    if (!(error instanceof ExpectedProblem)) throw error;
    return error.problem.code === 'file-enoent' ? null : error;
  }
}
