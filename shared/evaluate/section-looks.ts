import { getRootSumSquare } from '../engine/allowance';
import { computeSetup } from '../engine/compute-setup';
import type { EngineResults } from '../engine/engine-results';
import type { LaidBlank } from '../engine/layout';
import type { AllowanceTerm, SectionResult } from '../engine/results';
import { computeSection } from '../engine/section';
import { getSpanLimits } from '../engine/span-limits';
import { computeFindings } from '../findings/compute-findings';
import type { Finding } from '../findings/finding';
import type { SectionLook } from './choose-section';
import { computeForces, type ForcedSetup } from './compute-forces';
import { getEmptyResults } from './empty-results';
import type { PlanJob } from './plan-job';
import { layBlanks, type SectionTrial } from './section-trial';

/** One section worked out in full but for its order. */
export interface LookedAt {
  readonly laid: readonly LaidBlank[];
  /** Null when there is no vise to hold it in. */
  readonly forced: ForcedSetup | null;
}

/** Sections of one plan looked at closely, as bars in hand; each is worked out once. */
export class SectionLooks implements SectionLook {
  private readonly looked = new Map<SectionTrial, LookedAt & { section: SectionResult }>();
  private readonly stops = new Map<SectionTrial, string>();
  private readonly job: PlanJob;

  constructor(job: PlanJob) {
    this.job = job;
  }

  look(trial: SectionTrial): LookedAt & { section: SectionResult } {
    const known = this.looked.get(trial);
    if (known !== undefined) return known;
    const { job } = this;
    const { context, cutter, clamp } = job;
    const section = computeSection(context, trial.option, null, true);
    const laid = layBlanks(job, trial.option, section);
    const limits = getSpanLimits(context, section, job.sideForceN);
    const setup = computeSetup({ context, section, cutter }, { blanks: laid, clamp, limits });
    const looked = { section, laid, forced: setup === null ? null : computeForces(setup) };
    this.looked.set(trial, looked);
    return looked;
  }

  getStop(trial: SectionTrial): string {
    const known = this.stops.get(trial);
    if (known !== undefined) return known;
    const stop = this.findStop(trial);
    this.stops.set(trial, stop);
    return stop;
  }

  getKnownStop(trial: SectionTrial): string {
    return this.stops.get(trial) ?? '';
  }

  private findStop(trial: SectionTrial): string {
    const { section, forced } = this.look(trial);
    if (forced === null) return '';
    const { context } = this.job;
    const results: EngineResults = { ...getEmptyResults(), ...forced, section };
    const stops = computeFindings(context.plan, context.shop, results).filter(({ severity }) => severity === 'stop');
    // What no other bar would take away stops the plan whatever is taken.
    const [first] = stops.every((stop) => this.isOfTheBar(stop, forced)) ? stops : [];
    return first === undefined ? '' : (STOP_WORDS[first.code] ?? first.sentence);
  }

  private isOfTheBar({ code, key }: Finding, forced: ForcedSetup): boolean {
    const { context, cutter } = this.job;
    // A plan that asks for no clearance has none with any bar.
    if (code === 'cutter-in-jaws') return cutter.clearance.value > 0;
    if (code !== 'allowance-short') return !NOT_OF_THE_BAR.has(code);
    const { material, shop } = context;
    const isBowOfTheBar = shop.bowMeasurements.some(({ materialId }) => materialId === material?.id);
    const isOfAnyBar = ({ cause }: AllowanceTerm): boolean =>
      !BENT_BY_THE_BAR.has(cause) && !(isBowOfTheBar && cause === 'bow');
    const rows = forced.allowance.filter((row) => key === `${code}:${row.partId}` && row.left > 0 && !row.ok);
    return rows.every((row) => getRootSumSquare(row.terms.filter(isOfAnyBar)) <= row.left);
  }
}

/** Stops that no other bar would take away. */
const NOT_OF_THE_BAR: ReadonlySet<string> = new Set([
  'no-parts',
  'part-size',
  'part-quantity',
  'entry-missing',
  'no-bars-on-offer',
  'nothing-fits',
  'parts-clash',
  'beyond-travel',
  'clamp-over-limit',
  'rib-too-thick',
  'cut-through',
  'no-tab-fits',
  'tool-collides',
  'stick-out-short',
]);

/** Causes of an allowance short that hang on the bar's size, its straightness and its place in the jaws. */
const BENT_BY_THE_BAR: ReadonlySet<AllowanceTerm['cause']> = new Set(['curl', 'springBack', 'workBending']);

/** A stop in a few words, as the comparison of sections tells it. */
const STOP_WORDS: Readonly<Record<string, string>> = {
  'allowance-short': 'too little allowance for how this bar bends',
  'hold-weak': 'does not hold',
  'not-in-a-vise': 'a blank that no vise touches',
  'vises-clash': 'the vises clash',
};
