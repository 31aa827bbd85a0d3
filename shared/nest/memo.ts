/** Keeps the last answers of a pure function by key; the oldest go first. */
export class Memo<T> {
  private readonly answers = new Map<string, T>();
  private readonly most: number;

  constructor(most: number) {
    this.most = most;
  }

  get(key: string, work: () => T): T {
    const known = this.answers.get(key);
    const answer = known ?? work();
    this.answers.delete(key);
    this.answers.set(key, answer);
    if (this.answers.size > this.most) {
      const oldest = this.answers.keys().next();
      if (oldest.done !== true) this.answers.delete(oldest.value);
    }
    return answer;
  }
}
