import type { NestBudget } from './types';

/** How many elementary steps pass between two looks at `shouldStop`: a few milliseconds' worth. */
const UNITS_PER_LOOK = 2_000_000;

/** Counts elementary steps against a budget, so that an answer depends on the budget and never on the machine's speed. */
export class WorkMeter {
  spent = 0;
  private readonly limits: number[];
  private nextLook = 0;
  private isStopped = false;
  private readonly shouldStop: (() => boolean) | undefined;

  constructor(budget: Pick<NestBudget, 'workUnits' | 'shouldStop'>) {
    this.limits = [budget.workUnits];
    this.shouldStop = budget.shouldStop;
  }

  add(units: number): void {
    this.spent += units;
  }

  /** Steps left before the nearest limit. */
  get left(): number {
    return Math.max(0, (this.limits.at(-1) ?? 0) - this.spent);
  }

  /** True once a limit is reached or the caller has asked to stop. */
  isOut(): boolean {
    if (this.isStopped || this.spent >= (this.limits.at(-1) ?? 0)) return true;
    if (this.shouldStop && this.spent >= this.nextLook) {
      this.nextLook = this.spent + UNITS_PER_LOOK;
      this.isStopped = this.shouldStop();
    }
    return this.isStopped;
  }

  /** Runs one stage under a limit of its own, never beyond the limit around it. */
  within<T>(units: number, stage: () => T): T {
    this.limits.push(Math.min(this.limits.at(-1) ?? 0, this.spent + units));
    try {
      return stage();
    } finally {
      this.limits.pop();
    }
  }
}
