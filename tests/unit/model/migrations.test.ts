import { describe, expect, it } from 'vitest';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { buildHoistArms } from '../../../shared/model/catalogue/sample-hoist-arms';
import type { Migration } from '../../../shared/model/migrations';
import { FILE_KINDS, hasEveryStep, runMigrations } from '../../../shared/model/migrations';
import { parsePlan } from '../../../shared/model/parse-plan';
import { parseShop } from '../../../shared/model/parse-shop';
import { readEnvelope } from '../../../shared/model/read-envelope';

const STEPS: readonly Migration[] = [
  { to: 2, what: 'kerf was called cut', migrate: ({ cut, ...rest }) => ({ ...rest, kerf: cut }) },
  { to: 3, what: 'kerf in mm', migrate: (data) => ({ ...data, kerf: Number(data.kerf) * 25.4 }) },
];

/** Version of each file kind whose every step a test here runs; raise it together with such a test. */
const TESTED_UP_TO = { plan: 2, shop: 2 };

describe('migrations', () => {
  it.each(Object.entries(FILE_KINDS))('lead without a gap to the present version of a %s', (_name, kind) => {
    expect(hasEveryStep(kind.migrations, kind.version)).toBe(true);
  });

  it.each(['plan', 'shop'] as const)('of a %s are all run by a test', (kind) => {
    expect(FILE_KINDS[kind].version).toBe(TESTED_UP_TO[kind]);
  });

  it('of plans, 1 to 2: the sheet’s paper and scales are left to auto, inside corners are not known', () => {
    const { sheet, ...older } = buildHoistArms();
    const parts = older.parts.map(({ insideCorner, ...part }) => part);
    const read = parsePlan({ ...older, parts, version: 1 });
    expect(read.ok && read.plan).toEqual(buildHoistArms());
    expect(sheet).toEqual({ paper: 'auto', sectionScale: 'auto', elevationScale: 'auto' });
    expect(read.ok && read.remarks).toEqual([
      'Brought up from file version 1 to 2; an older Kerfgrip cannot read it once it is saved.',
    ]);
  });

  it('of shops, 1 to 2: the step of spacers is kept for inch plans, and as whole mm for the others', () => {
    const { spacerStepInch, spacerStepMm, ...older } = defaultShop.rules;
    const read = parseShop({ ...defaultShop, version: 1, rules: { ...older, spacerStep: 3.175 } });
    expect(read.ok && read.shop).toEqual({
      ...defaultShop,
      rules: { ...defaultShop.rules, spacerStepInch: 3.175, spacerStepMm: 3 },
    });
    expect([spacerStepInch, spacerStepMm]).toEqual([1.5875, 1]);
    expect(read.ok && read.remarks).toHaveLength(1);
  });

  it('of a saw from before its screw was asked for: taken as flush', () => {
    const tools = defaultShop.tools.map((tool) => {
      const { screwHeight, ...older } = { screwHeight: 0, ...tool };
      return older;
    });
    const read = parseShop({ ...defaultShop, tools });
    const saws = read.ok ? read.shop.tools.filter(({ kind }) => kind === 'slittingSaw') : [];
    expect(saws.length).toBeGreaterThan(0);
    for (const saw of saws) expect(saw).toMatchObject({ screwHeight: 0 });
  });

  it('run in order from the version of the file', () => {
    expect(runMigrations({ version: 1, cut: 2 }, 1, STEPS)).toEqual({ version: 3, kerf: 50.8 });
    expect(runMigrations({ version: 2, kerf: 2 }, 2, STEPS)).toEqual({ version: 3, kerf: 50.8 });
    const present = { version: 3, kerf: 2 };
    expect(runMigrations(present, 3, STEPS)).toBe(present);
  });

  it('do not change the data they are given', () => {
    const data = Object.freeze({ version: 1, cut: 2 });
    runMigrations(data, 1, STEPS);
    expect(data).toEqual({ version: 1, cut: 2 });
  });

  it('are told to the user', () => {
    const read = readEnvelope({ format: 'kerfgrip-plan', version: 1, cut: 1 }, 'plan', STEPS, 3);
    expect(read.ok && read.data).toEqual({ format: 'kerfgrip-plan', version: 3, kerf: 25.4 });
    expect(read.ok && read.remarks).toEqual([
      'Brought up from file version 1 to 3; an older Kerfgrip cannot read it once it is saved.',
    ]);
  });

  it('with a step missing are noticed', () => {
    expect(hasEveryStep(STEPS, 3)).toBe(true);
    expect(hasEveryStep(STEPS, 4)).toBe(false);
    expect(hasEveryStep(STEPS.slice(1), 2)).toBe(false);
  });
});
