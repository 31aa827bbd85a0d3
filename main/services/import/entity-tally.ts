import type { EntityCount } from '../../../shared/outline/outline-drawing';

/** Counts every kind of thing in a drawing, read or not. */
export class EntityTally {
  readonly #counts = new Map<string, { read: number; skipped: number; reasons: Set<string> }>();

  addRead(type: string): void {
    this.#get(type).read += 1;
  }

  /** @param reason words that follow "skipped:" */
  addSkipped(type: string, reason: string, count = 1): void {
    if (count <= 0) return;
    const entry = this.#get(type);
    entry.skipped += count;
    if (entry.reasons.size < MOST_REASONS) entry.reasons.add(reason);
  }

  list(): EntityCount[] {
    return [...this.#counts]
      .map(([type, { read, skipped, reasons }]) => ({ type, read, skipped, reasons: [...reasons] }))
      .sort((a, b) => (a.type < b.type ? -1 : 1));
  }

  #get(type: string) {
    const name = type.slice(0, LONGEST_TYPE);
    const known = this.#counts.get(name) ?? (this.#counts.size < MOST_TYPES ? undefined : this.#counts.get(OTHERS));
    if (known !== undefined) return known;
    const entry = { read: 0, skipped: 0, reasons: new Set<string>() };
    this.#counts.set(this.#counts.size < MOST_TYPES ? name : OTHERS, entry);
    return entry;
  }
}

const MOST_TYPES = 200;
const MOST_REASONS = 5;
const LONGEST_TYPE = 60;
const OTHERS = 'others';
