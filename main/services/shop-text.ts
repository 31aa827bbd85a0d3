import { parseShopText } from '../../shared/model/parse-shop';
import { serializeShop, UnwritableError } from '../../shared/model/serialize';
import type { Shop } from '../../shared/model/shop';
import { nameTheFile } from './file-problem';

export interface ReadShop {
  shop: Shop;
  /** Sentences to show once. */
  remarks: string[];
}

/**
 * Reads the text of a shop file.
 *
 * @param name how the sentence calls the file
 * @throws ExpectedProblem with one sentence that names the file and the field
 */
export function parseShopContent(text: string, name: string): ReadShop {
  const read = parseShopText(text);
  if (read.ok) return { shop: read.shop, remarks: read.remarks };
  throw nameTheFile(read.problem, `${name} could not be opened`);
}

/**
 * A shop library as the content of its file.
 *
 * @throws ExpectedProblem when it could not be read back
 */
export function buildShopContent(shop: Shop): Buffer {
  try {
    return Buffer.from(serializeShop(shop));
  } catch (error) {
    if (error instanceof UnwritableError) throw nameTheFile(error.problem, 'The shop library cannot be saved as it is');
    throw error;
  }
}
