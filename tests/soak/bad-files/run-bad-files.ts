import { buildCutListCsv } from '../../../main/services/cut-list-csv';
import { renderSheetPdf } from '../../../main/services/export-sheet';
import { buildSheet } from '../../../shared/drawing/sheet/build-sheet';
import { toDxf } from '../../../shared/drawing/sinks/dxf';
import { toSheetSvg } from '../../../shared/drawing/sinks/sheet-svg';
import { buildDrawingSet } from '../../../shared/drawing/views/drawing-set';
import { evaluate } from '../../../shared/evaluate';
import { defaultShop } from '../../../shared/model/catalogue/default-shop';
import { parsePlanText } from '../../../shared/model/parse-plan';
import { parseShopText } from '../../../shared/model/parse-shop';
import type { Plan } from '../../../shared/model/plan';
import { serializeShop } from '../../../shared/model/serialize';
import type { Shop } from '../../../shared/model/shop';
import { readSamplePlan, readSampleText, SAMPLE_NAMES } from '../../unit/support/sample-plans';
import { createChance, drawChanges, flipBytes, type Json, spoil } from './spoil-json';

export interface BadFileOutcome {
  /** Files that were opened, evaluated, drawn and put on a sheet. */
  read: number;
  /** Files that got one sentence instead. */
  refused: number;
  /** What went wrong, with how to get that file again. */
  faults: string[];
  slowestMs: number;
}

/** The marks are looked through each time; writing them out takes longer and is done now and then. */
const FILES_EVERY = 16;
const PDF_EVERY = 200;

const PLANS = SAMPLE_NAMES.map(readSampleText);
const OWN_PLANS = SAMPLE_NAMES.map(readSamplePlan);
const SHOP = serializeShop(defaultShop);
const NO_NUMBER = /NaN|Infinity|undefined|\[object/;

interface Opened {
  plan: Plan;
  shop: Shop;
}

/** The plan and shop of a spoilt text; a sentence where it is refused. */
function openText(text: string, isShop: boolean, index: number): Opened | string {
  if (isShop) {
    const read = parseShopText(text);
    const plan = OWN_PLANS[index % OWN_PLANS.length] as Plan;
    // With the plan's own copies gone, the spoilt shop is what the engine works with.
    const library = Object.fromEntries(Object.keys(plan.library).map((key) => [key, []])) as unknown as Plan['library'];
    return read.ok ? { plan: { ...plan, library }, shop: read.shop } : read.problem.sentence;
  }
  const read = parsePlanText(text);
  return read.ok ? { plan: read.plan, shop: defaultShop } : read.problem.sentence;
}

/** The first number in a drawing that is none, and the first text that shows one. */
function findNoNumber(value: unknown, path: string): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : `${path} is ${value}`;
  if (typeof value === 'string') return NO_NUMBER.test(value) ? `${path} says ${value.slice(0, 120)}` : null;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, entry] of Object.entries(value)) {
    const found = findNoNumber(entry, `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}

/** Everything the planner makes of a plan; gives back what is wrong with it. */
async function workThrough({ plan, shop }: Opened, index: number): Promise<string[]> {
  const evaluation = evaluate(plan, shop);
  const paper = (['a4', 'letter', 'a3', 'tabloid'] as const)[index % 4] ?? 'a4';
  const sheet = buildSheet(plan, evaluation, shop, { paper });
  const drawing = buildDrawingSet(plan, evaluation, shop, 2);
  const cutList = evaluation.order === null ? '' : buildCutListCsv(evaluation.order, plan.units);
  const shown = { sheet, drawing, cutList, findings: evaluation.findings.map(({ sentence }) => sentence) };
  const wrong = findNoNumber(shown, 'plan');
  if (index % FILES_EVERY === 0) {
    const files = [toSheetSvg(sheet), toDxf(drawing)];
    if (files.some((file) => NO_NUMBER.test(file))) return [`a file of it shows no number; ${wrong}`];
  }
  if (index % PDF_EVERY === 0) {
    const { bytes } = await renderSheetPdf(plan, evaluation, shop, { paper });
    if (Buffer.from(bytes.subarray(0, 5)).toString() !== '%PDF-') return ['the PDF is none'];
  }
  return wrong === null ? [] : [wrong];
}

/**
 * Spoils plan and shop files and takes each from its text to its sheet.
 *
 * @param count how many files; a quarter of them are shops, a quarter have bytes flipped
 * @param seed the same seed spoils the same way
 * @param longestMs longest that one file may take from its text to its sheet, ms of the processor
 */
export async function runBadFiles(count: number, seed: number, longestMs: number): Promise<BadFileOutcome> {
  const chance = createChance(seed);
  const changes = drawChanges(count, seed);
  const outcome: BadFileOutcome = { read: 0, refused: 0, faults: [], slowestMs: 0 };
  // The first PDF reads the fonts, which is no fault of the file that happens to need it.
  for (const plan of OWN_PLANS) await workThrough({ plan, shop: defaultShop }, 0);
  for (const [index, change] of changes.entries()) {
    const isShop = index % 4 === 3;
    const whole = isShop ? SHOP : (PLANS[index % PLANS.length] as string);
    const text =
      index % 8 >= 6
        ? flipBytes(Buffer.from(whole), chance).toString('utf8')
        : JSON.stringify(spoil(JSON.parse(whole) as Json, change));
    const before = process.cpuUsage();
    try {
      const opened = openText(text, isShop, index);
      if (typeof opened === 'string') {
        outcome.refused += 1;
        if (opened.length > 600 || opened.includes('\n')) outcome.faults.push(`#${index}: no sentence: ${opened}`);
      } else {
        outcome.read += 1;
        const wrong = await workThrough(opened, index);
        outcome.faults.push(...wrong.map((one) => `#${index}: ${one}`));
      }
    } catch (error) {
      const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
      outcome.faults.push(`#${index}: ${stack.split('\n').slice(0, 4).join(' | ')}`);
    }
    const { user, system } = process.cpuUsage(before);
    const ms = (user + system) / 1000;
    outcome.slowestMs = Math.max(outcome.slowestMs, ms);
    if (ms > longestMs) outcome.faults.push(`#${index}: took ${Math.round(ms)} ms`);
  }
  return outcome;
}
