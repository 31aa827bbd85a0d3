import { describeIssues } from './describe-issue';
import { findDuplicateInShop } from './duplicate-ids';
import type { TextLimits } from './parse-json-text';
import { DEFAULT_TEXT_LIMITS, parseJsonText } from './parse-json-text';
import type { ParseResult } from './problem';
import { readEnvelope } from './read-envelope';
import { getDefaultRules, RULE_BOOK } from './rules';
import type { Shop } from './shop';
import { shopSchema } from './shop-schema';
import { findUnknownKeys, getUnknownKeyRemarks } from './unknown-keys';

export type ParsedShop = ParseResult<'shop', Shop>;

/**
 * Reads the text of a shop library.
 *
 * @param text the whole file
 * @param limits the longest text that is looked at
 * @returns the shop with remarks to show once, or one sentence that names what is wrong; never throws
 */
export function parseShopText(text: string, limits: TextLimits = DEFAULT_TEXT_LIMITS): ParsedShop {
  const json = parseJsonText(text, 'shop library', limits);
  return json.ok ? parseShop(json.value) : json;
}

/** Reads a shop from a value of unknown origin. House rules it does not have yet get their first values. */
export function parseShop(value: unknown): ParsedShop {
  const envelope = readEnvelope(value, 'shop');
  if (!envelope.ok) return envelope;
  const { data, remarks } = addMissingRules(envelope.data);
  const read = shopSchema.safeParse(data);
  if (!read.success) return { ok: false, problem: describeIssues(read.error.issues, data) };
  const duplicate = findDuplicateInShop(read.data);
  if (duplicate !== undefined) return { ok: false, problem: duplicate };
  const unknown = getUnknownKeyRemarks(findUnknownKeys(data, read.data));
  return { ok: true, shop: read.data, remarks: [...envelope.remarks, ...remarks, ...unknown] };
}

/** A rule the program has learnt since the file was written would otherwise make the file unreadable. */
function addMissingRules(data: Record<string, unknown>): { data: Record<string, unknown>; remarks: string[] } {
  const { rules } = data;
  if (typeof rules !== 'object' || rules === null) return { data, remarks: [] };
  const missing = Object.entries(RULE_BOOK).filter(([key]) => !Object.hasOwn(rules, key));
  if (missing.length === 0) return { data, remarks: [] };
  const labels = missing.map(([, rule]) => rule.label).join('; ');
  return {
    data: { ...data, rules: { ...getDefaultRules(), ...rules } },
    remarks: [`House rules that were missing got their first values: ${labels}.`],
  };
}
