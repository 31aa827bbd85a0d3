import { basename, extname, resolve } from 'node:path';
import { getScaleText, parseScale, SCALE_SERIES } from '../../shared/drawing/sheet/scales';
import { evaluate, THOROUGH } from '../../shared/evaluate';
import type { LengthUnits } from '../../shared/units/length-units';
import { parseLength } from '../../shared/units/parse-length';
import { buildFileProblem, getShortName } from '../services/file-problem';
import { renderSheetFile } from '../services/sheet-files';
import { writeFileSafely } from '../services/write-file-safely';
import { type Command, UsageError } from './command';
import { getDoneCode, PLAN_OPTIONS } from './evaluate-command';
import { loadJob } from './load-job';
import { getOneOf, getOnly, parseWords } from './parse-words';

const OPTIONS = {
  ...PLAN_OPTIONS,
  out: { type: 'string' },
  paper: { type: 'string' },
  'section-scale': { type: 'string' },
  'elevation-scale': { type: 'string' },
  measured: { type: 'string' },
  workings: { type: 'boolean', default: false },
} as const;

/** The printable fixture sheet. */
export const sheetCommand: Command = {
  usage:
    'sheet PLAN --out FILE [--paper letter|a4|a3|tabloid] [--section-scale 1:N] [--elevation-scale 1:N] [--measured LENGTH] [--workings] [--shop FILE] [--strict]',
  about:
    'the fixture sheet as .pdf, .svg or .dxf by the ending of FILE; paper and scales are those of the plan unless others are asked for here, scales from the standard series; --measured is the printed 100 mm square as measured; --workings adds every figure with its formula',
  async run(args) {
    const { values, positionals } = parseWords(args, OPTIONS);
    const planPath = getOnly(positionals, 'plan');
    if (values.out === undefined) throw new UsageError('--out has to name the file to write.');
    const out = resolve(values.out);
    const format = getOneOf(extname(out).slice(1).toLowerCase(), ['pdf', 'svg', 'dxf'], 'The ending of --out');
    const paper = values.paper === undefined ? undefined : getPaper(values.paper);
    const { plan, shop } = await loadJob(planPath, values.shop);
    const scale = {
      section: getScale(values['section-scale'], plan.units, '--section-scale'),
      elevation: getScale(values['elevation-scale'], plan.units, '--elevation-scale'),
    };
    const { content } = await renderSheetFile({
      plan,
      shop,
      format,
      paper,
      scale,
      measuredSquare: getMeasured(values.measured, plan.units),
      workings: values.workings,
      fileName: basename(planPath),
    });
    await writeFileSafely(out, content).catch((error) => {
      throw buildFileProblem(error, `${getShortName(out)} was not written`, out);
    });
    return getDoneCode(evaluate(plan, shop, THOROUGH), values.strict);
  },
};

function getPaper(text: string) {
  return getOneOf(text.toLowerCase(), ['letter', 'a4', 'a3', 'tabloid'], '--paper');
}

function getScale(text: string | undefined, units: LengthUnits, option: string): number | null {
  if (text === undefined) return null;
  const scale = parseScale(text, units);
  if (scale !== null) return scale;
  throw new UsageError(`${option} has to be one of ${SCALE_SERIES[units].map(getScaleText).join(', ')}.`);
}

/** Side of the test square from a length as the planner's fields read it, mm. */
function getMeasured(text: string | undefined, units: LengthUnits): number | null {
  if (text === undefined) return null;
  const parsed = parseLength(text, units);
  if (!parsed.ok) throw new UsageError(`--measured: ${parsed.refusal}`);
  if (parsed.mm <= 0) throw new UsageError('--measured has to be more than 0.');
  return parsed.mm;
}
