import { PLAN_VERSION, SHOP_VERSION } from './versions';

/** One step from a file version to the next. */
export interface Migration {
  /** Version the step leads to; it takes files of the version before. */
  to: number;
  /** What changed, for the person who reads this list. */
  what: string;
  /** The data of the new version; the data given is not changed. */
  migrate: (data: Record<string, unknown>) => Record<string, unknown>;
}

/** Steps of the plan file, in order, one for each version after the first. */
export const PLAN_MIGRATIONS: readonly Migration[] = [
  {
    to: 2,
    what: 'the paper and the scales of the sheet are kept with the plan; parts may tell their tightest inside corner',
    migrate: ({ parts, ...data }) => ({
      ...data,
      parts: addInsideCorner(parts),
      sheet: { paper: 'auto', sectionScale: 'auto', elevationScale: 'auto' },
    }),
  },
];

/** Steps of the shop file, likewise. */
export const SHOP_MIGRATIONS: readonly Migration[] = [
  {
    to: 2,
    what: 'spacers have a step of their own in mm plans',
    migrate: ({ rules, ...data }) => ({ ...data, rules: splitSpacerStep(rules) }),
  },
];

function addInsideCorner(parts: unknown): unknown {
  if (!Array.isArray(parts)) return parts;
  return parts.map((part: unknown) =>
    typeof part === 'object' && part !== null ? { ...part, insideCorner: null } : part,
  );
}

/** Until then mm plans took the one step there was as a whole number of mm. */
function splitSpacerStep(rules: unknown): unknown {
  if (typeof rules !== 'object' || rules === null || !('spacerStep' in rules)) return rules;
  const { spacerStep, ...others } = rules;
  if (typeof spacerStep !== 'number') return others;
  return { ...others, spacerStepInch: spacerStep, spacerStepMm: Math.max(1, Math.round(spacerStep)) };
}

/** True when the steps lead without a gap from version 1 to the present one. */
export function hasEveryStep(migrations: readonly Migration[], present: number): boolean {
  return migrations.length === present - 1 && migrations.every(({ to }, index) => to === index + 2);
}

/**
 * Brings the data of an older file up to the present version, step by step.
 *
 * @param data a file's data of the version given
 * @param version of the data, 1 or more
 * @returns data of the last step's version, its `version` field included; the data itself when no step applies
 */
export function runMigrations(
  data: Record<string, unknown>,
  version: number,
  migrations: readonly Migration[],
): Record<string, unknown> {
  return migrations
    .filter(({ to }) => to > version)
    .reduce((older, { to, migrate }) => ({ ...migrate(older), version: to }), data);
}

/** What each kind of file needs to be read. */
export const FILE_KINDS = {
  plan: { format: 'kerfgrip-plan', words: 'plan', version: PLAN_VERSION, migrations: PLAN_MIGRATIONS },
  shop: { format: 'kerfgrip-shop', words: 'shop library', version: SHOP_VERSION, migrations: SHOP_MIGRATIONS },
} as const;

export type FileKind = keyof typeof FILE_KINDS;
