import { basename, extname, resolve } from 'node:path';
import { evaluate, THOROUGH } from '../../shared/evaluate';
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
  workings: { type: 'boolean', default: false },
} as const;

/** The printable fixture sheet. */
export const sheetCommand: Command = {
  usage: 'sheet PLAN --out FILE [--paper letter|a4|a3|tabloid] [--workings] [--shop FILE] [--strict]',
  about:
    'the fixture sheet as .pdf, .svg or .dxf by the ending of FILE; letter for inch plans, a4 for mm by default; --workings adds every figure with its formula',
  async run(args) {
    const { values, positionals } = parseWords(args, OPTIONS);
    const planPath = getOnly(positionals, 'plan');
    if (values.out === undefined) throw new UsageError('--out has to name the file to write.');
    const out = resolve(values.out);
    const format = getOneOf(extname(out).slice(1).toLowerCase(), ['pdf', 'svg', 'dxf'], 'The ending of --out');
    const asked = values.paper === undefined ? undefined : getPaper(values.paper);
    const { plan, shop } = await loadJob(planPath, values.shop);
    const paper = asked ?? (plan.units === 'in' ? 'letter' : 'a4');
    const { content } = await renderSheetFile({
      plan,
      shop,
      format,
      paper,
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
