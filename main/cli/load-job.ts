import { resolve } from 'node:path';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { getShortName } from '../services/file-problem';
import { parsePlanContent } from '../services/plan-text';
import { readFileLimited } from '../services/read-file-limited';
import { parseShopContent } from '../services/shop-text';

export interface Job {
  plan: Plan;
  shop: Shop;
}

/**
 * Reads a plan and the shop that stands behind it. Without a shop file it is the built-in shop and not the user's
 * own, so that the same plan gives the same answer on every machine; what a plan uses it carries in itself.
 *
 * @throws ExpectedProblem when a file cannot be read
 */
export async function loadJob(planPath: string, shopPath: string | undefined): Promise<Job> {
  const plan = parsePlanContent(await readText(planPath), getShortName(planPath)).plan;
  const shop =
    shopPath === undefined ? defaultShop : parseShopContent(await readText(shopPath), getShortName(shopPath)).shop;
  return { plan, shop };
}

async function readText(path: string): Promise<string> {
  return (await readFileLimited(resolve(path))).toString('utf8');
}
