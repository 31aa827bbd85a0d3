/** Partial fillings of a bar, each one item more than its parent, held in arrays of numbers because there may be very many. */
export class PartialFillings {
  count = 0;
  private used = new Float64Array(1024);
  private profits = new Float64Array(1024);
  private parents = new Int32Array(1024);
  private items = new Int32Array(1024);

  /** @returns number of the new filling */
  add(used: number, profit: number, parent: number, item: number): number {
    if (this.count === this.used.length) this.grow();
    const at = this.count++;
    this.used[at] = used;
    this.profits[at] = profit;
    this.parents[at] = parent;
    this.items[at] = item;
    return at;
  }

  /** Forgets the filling added last, which must have no children. */
  dropLast(): void {
    this.count--;
  }

  getUsed(filling: number): number {
    return this.used[filling] as number;
  }

  getProfit(filling: number): number {
    return this.profits[filling] as number;
  }

  getParent(filling: number): number {
    return this.parents[filling] as number;
  }

  /** Item added last; -1 for the empty bar. */
  getItem(filling: number): number {
    return this.items[filling] as number;
  }

  /**
   * Puts two lists together, both with use and profit rising, and leaves out every filling beside which another has used
   * no more and earned as much.
   */
  mergeUndominated(first: readonly number[], second: readonly number[]): number[] {
    const merged: number[] = [];
    let richest = -1;
    let a = 0;
    let b = 0;
    while (a < first.length || b < second.length) {
      const takesFirst =
        b >= second.length || (a < first.length && this.isBefore(first[a] as number, second[b] as number));
      const next = (takesFirst ? first[a++] : second[b++]) as number;
      if (this.getProfit(next) <= richest) continue;
      richest = this.getProfit(next);
      merged.push(next);
    }
    return merged;
  }

  private isBefore(a: number, b: number): boolean {
    const difference = this.getUsed(a) - this.getUsed(b);
    return difference < 0 || (difference === 0 && this.getProfit(a) >= this.getProfit(b));
  }

  private grow(): void {
    const size = 2 * this.used.length;
    this.used = copyInto(new Float64Array(size), this.used);
    this.profits = copyInto(new Float64Array(size), this.profits);
    this.parents = copyInto(new Int32Array(size), this.parents);
    this.items = copyInto(new Int32Array(size), this.items);
  }
}

function copyInto<T extends Float64Array | Int32Array>(target: T, source: T): T {
  target.set(source);
  return target;
}
