import { basename, dirname } from 'node:path';
import type { FileHandle, OpenedPlan } from '../../shared/contract/host';
import { buildEmptyPlan } from '../../shared/model/defaults';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { ExpectedProblem } from './expected-problem';
import { getShortName } from './file-problem';
import type { PathTokens } from './path-tokens';
import type { PlanOnDisk } from './plan-files';
import { openPlanContent } from './plan-text';
import { readFileLimited } from './read-file-limited';
import type { JournalFile } from './recovery';
import type { Services } from './services';

/** What the host remembers of the page's session. */
export class HostSession {
  readonly #services: Services;
  readonly #tokens: PathTokens;
  /** What a page that is loaded anew starts with. */
  #start: { path: string } | { sample: string } | 'empty' | null;
  #openPath: string | null = null;
  #hasStarted = false;
  lastFolder: string | null = null;

  constructor(services: Services, tokens: PathTokens, requestedPlan: string | undefined) {
    this.#services = services;
    this.#tokens = tokens;
    this.#start = requestedPlan === undefined ? null : { path: requestedPlan };
  }

  async openPath(path: string): Promise<OpenedPlan> {
    const opened = await this.#services.planFiles.open(path);
    await this.moveTo(path);
    return { plan: opened.plan, file: this.buildHandle(opened), remarks: opened.remarks };
  }

  /**
   * Takes up what an earlier session left. Its file is given as it was when the work on it began, so that saving over
   * what has changed since is asked about; a file that cannot be opened any more is not taken up.
   *
   * @throws ExpectedProblem when there is no such work
   */
  async restoreLeft(id: string): Promise<OpenedPlan & { shop: Shop | null }> {
    const left = await this.#services.recovery.findLeft(id);
    if (left === null) {
      throw new ExpectedProblem('no-such-work', 'This work is not in the recovery journal any more.', 'id');
    }
    const { plan, shop } = left;
    return { plan, shop, ...(await this.#takeUpFile(left.file)) };
  }

  async #takeUpFile(file: JournalFile | null): Promise<Pick<OpenedPlan, 'file' | 'remarks'>> {
    if (file === null || file.stamp === null) {
      await this.moveToNone();
      return { file: null, remarks: [] };
    }
    const { path, stamp } = file;
    try {
      const onFile = await this.#services.planFiles.open(path);
      await this.moveTo(path);
      const changed = `${getShortName(path)} was changed since this work began; you will be asked before it is written over.`;
      const remarks = [...onFile.remarks, ...(onFile.stamp === stamp ? [] : [changed])];
      return { file: this.buildHandle({ ...onFile, stamp }), remarks };
    } catch (error) {
      if (!(error instanceof ExpectedProblem)) throw error;
      await this.moveToNone();
      const remark = `${error.problem.sentence} The restored plan has no file until you save it.`;
      return { file: null, remarks: [remark] };
    }
  }

  async openSample(sample: string): Promise<OpenedPlan> {
    const { plan, remarks } = await this.#services.samples.open(sample);
    await this.#leaveOpen(null);
    this.#start = { sample };
    return { plan, file: null, remarks };
  }

  /** The plan at this path is now the one that is worked on. */
  async moveTo(path: string): Promise<void> {
    await this.#leaveOpen(path);
    this.#start = { path };
    this.lastFolder = dirname(path);
    await this.#services.recents.add(path);
  }

  /** The page works on a plan that has no file. */
  async moveToNone(): Promise<void> {
    await this.#leaveOpen(null);
    this.#start = 'empty';
  }

  get currentPath(): string | null {
    return this.#openPath;
  }

  async #leaveOpen(next: string | null): Promise<void> {
    const before = this.#openPath;
    this.#openPath = next;
    if (before !== null && before !== next) await this.#services.planFiles.leave(before);
  }

  buildHandle({ path, stamp, readOnly, fromNewer }: Omit<PlanOnDisk, 'plan' | 'remarks'>): FileHandle {
    const token = this.#tokens.give('file', path);
    return { token, name: basename(path), folder: dirname(path), stamp, readOnly, fromNewer };
  }

  /** A file as it is after a save. */
  buildSavedHandle(path: string, stamp: string): FileHandle {
    return this.buildHandle({ path, stamp, readOnly: false, fromNewer: false });
  }

  /** The first load gets what was asked for; a later one of the same window gets what it had open. */
  async openStart(shop: Shop): Promise<OpenedPlan> {
    if (this.#hasStarted) await this.#services.recovery.setAside();
    this.#hasStarted = true;
    const remarks: string[] = [];
    const start = this.#start;
    if (start === 'empty') return this.#buildEmpty(shop);
    if (start !== null) {
      try {
        return 'path' in start ? await this.openPath(start.path) : await this.openSample(start.sample);
      } catch (error) {
        if (!(error instanceof ExpectedProblem)) throw error;
        remarks.push(error.problem.sentence);
      }
    }
    const opened = await this.#openFirstSample(shop);
    return { ...opened, remarks: [...remarks, ...opened.remarks] };
  }

  /** The plan that the first page will begin with, read without taking anything up; null where that cannot be said. */
  async peekStart(): Promise<Plan | null> {
    const start = this.#start;
    try {
      if (start !== null && typeof start === 'object' && 'path' in start) {
        return openPlanContent((await readFileLimited(start.path)).toString('utf8'), '').plan;
      }
      const [sample] = await this.#services.samples.list();
      return sample === undefined ? null : (await this.#services.samples.open(sample.id)).plan;
    } catch {
      return null;
    }
  }

  async #openFirstSample(shop: Shop): Promise<OpenedPlan> {
    const [sample] = await this.#services.samples.list();
    return sample !== undefined ? this.openSample(sample.id) : this.#buildEmpty(shop);
  }

  #buildEmpty(shop: Shop): OpenedPlan {
    const { userName, locale, now } = this.#services;
    const units = locale.endsWith('-US') ? 'in' : 'mm';
    return { plan: buildEmptyPlan({ units, date: getDay(now()), author: userName, shop }), file: null, remarks: [] };
  }
}

/** The day by the machine's own clock, as ISO date. */
export function getDay(time: Date): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
}
