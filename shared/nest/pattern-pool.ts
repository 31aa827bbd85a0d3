import { type CorePattern, getPatternKey } from './core-model';

/** All patterns met so far, each once. */
export class PatternPool {
  readonly patterns: CorePattern[] = [];
  private readonly keys = new Set<string>();

  add(pattern: CorePattern): boolean {
    const key = getPatternKey(pattern);
    if (this.keys.has(key)) return false;
    this.keys.add(key);
    this.patterns.push(pattern);
    return true;
  }
}
