import { describeIssues } from './describe-issue';
import { findDuplicateInPlan } from './duplicate-ids';
import { keepKnownParts } from './edit';
import type { TextLimits } from './parse-json-text';
import { DEFAULT_TEXT_LIMITS, parseJsonText } from './parse-json-text';
import type { Plan } from './plan';
import { planSchema } from './plan-schema';
import type { ParseResult } from './problem';
import { readEnvelope } from './read-envelope';
import { findUnknownKeys, getUnknownKeyRemarks } from './unknown-keys';
import { PLAN_VERSION } from './versions';

export type ParsedPlan = ParseResult<'plan', Plan>;

/**
 * Reads the text of a plan file.
 *
 * @param text the whole file
 * @param limits the longest text that is looked at
 * @returns the plan with remarks to show once, or one sentence that names what is wrong; never throws
 */
export function parsePlanText(text: string, limits: TextLimits = DEFAULT_TEXT_LIMITS): ParsedPlan {
  const json = parseJsonText(text, 'plan', limits);
  return json.ok ? parsePlan(json.value) : json;
}

/**
 * Reads what this version knows of a plan that a newer one has written: to be looked at, never to be written over its
 * file.
 *
 * @returns undefined when the text is no plan of a newer version, or when this version cannot make a plan of it
 */
export function parseNewerPlanText(
  text: string,
  limits: TextLimits = DEFAULT_TEXT_LIMITS,
): { plan: Plan; version: number; remarks: string[] } | undefined {
  const json = parseJsonText(text, 'plan', limits);
  const version = json.ok ? getNewerVersion(json.value) : undefined;
  if (!json.ok || version === undefined) return undefined;
  const read = parsePlan({ ...(json.value as object), version: PLAN_VERSION });
  return read.ok ? { plan: read.plan, version, remarks: read.remarks } : undefined;
}

/** The file version, where the value is a plan of a newer one. */
function getNewerVersion(value: unknown): number | undefined {
  const envelope = readEnvelope(value, 'plan');
  if (envelope.ok || envelope.problem.code !== 'newer-version') return undefined;
  return (value as { version: number }).version;
}

/** Reads a plan from a value of unknown origin: a parsed file, a message, the clipboard. */
export function parsePlan(value: unknown): ParsedPlan {
  const envelope = readEnvelope(value, 'plan');
  if (!envelope.ok) return envelope;
  const read = planSchema.safeParse(envelope.data);
  if (!read.success) return { ok: false, problem: describeIssues(read.error.issues, envelope.data) };
  const duplicate = findDuplicateInPlan(read.data);
  if (duplicate !== undefined) return { ok: false, problem: duplicate };
  const plan = keepKnownParts(read.data);
  const unknown = getUnknownKeyRemarks(findUnknownKeys(envelope.data, read.data));
  return { ok: true, plan, remarks: [...envelope.remarks, ...unknown, ...getDroppedRemarks(read.data, plan)] };
}

function getDroppedRemarks(before: Plan, after: Plan): string[] {
  return before === after
    ? []
    : ['Places or tabs that belong to a part which is not in the plan were left out; look the blanks over.'];
}
