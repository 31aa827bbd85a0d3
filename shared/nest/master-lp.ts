import type { WorkMeter } from './work-meter';

/** One column of the linear program, sparse. */
export interface LpColumn {
  readonly cost: number;
  readonly rows: readonly number[];
  readonly values: readonly number[];
}

const COST_TOLERANCE = 1e-9;
const PIVOT_TOLERANCE = 1e-9;
const PIVOTS_BETWEEN_REBUILDS = 120;

/**
 * Linear program `min c x, A x >= b, x >= 0` that grows by columns: revised primal simplex with a dense inverse.
 *
 * Every row starts on its surplus where `b <= 0` and on an artificial variable at `artificialCost` elsewhere. The right side
 * is nudged by a hair, different in every row, so that degenerate steps do not cycle; read the duals, which do not feel it.
 */
export class MasterLp {
  readonly columns: LpColumn[] = [];
  readonly duals: Float64Array;
  pivots = 0;
  private readonly size: number;
  private readonly right: Float64Array;
  private readonly artificialCost: number;
  private readonly work: WorkMeter;
  private inverse: Float64Array;
  /** Column of each basic variable: `>= 0` a column, `-1 - r` the surplus of row r, `-1 - m - r` the artificial of row r. */
  private readonly basis: Int32Array;
  private readonly basicValues: Float64Array;
  private readonly direction: Float64Array;
  private readonly isBasic: boolean[] = [];
  private pivotsSinceRebuild = 0;

  constructor(right: ArrayLike<number>, artificialCost: number, work: WorkMeter) {
    const m = right.length;
    this.size = m;
    this.work = work;
    this.artificialCost = artificialCost;
    this.right = new Float64Array(m);
    let seed = 12345;
    for (let r = 0; r < m; r++) {
      seed = (seed * 1103515245 + 12345) % 2147483648;
      this.right[r] = (right[r] as number) + 1e-7 * (1 + seed / 2147483648);
    }
    this.inverse = new Float64Array(m * m);
    this.basis = new Int32Array(m);
    this.basicValues = new Float64Array(m);
    this.direction = new Float64Array(m);
    this.duals = new Float64Array(m);
    for (let r = 0; r < m; r++) {
      const isSurplus = (right[r] as number) <= 0;
      this.basis[r] = isSurplus ? -1 - r : -1 - m - r;
      this.inverse[r * m + r] = isSurplus ? -1 : 1;
      if (isSurplus) this.right[r] = (right[r] as number) - 1e-7 * (1 + r / m);
      this.basicValues[r] = Math.abs(this.right[r] as number);
    }
    this.computeDuals();
  }

  addColumn(column: LpColumn): void {
    this.columns.push(column);
    this.isBasic.push(false);
  }

  private getCost(variable: number): number {
    if (variable >= 0) return (this.columns[variable] as LpColumn).cost;
    return variable >= -this.size ? 0 : this.artificialCost;
  }

  private computeDuals(): void {
    const m = this.size;
    this.duals.fill(0);
    for (let r = 0; r < m; r++) {
      const cost = this.getCost(this.basis[r] as number);
      if (cost === 0) continue;
      const row = r * m;
      for (let c = 0; c < m; c++) this.duals[c] = (this.duals[c] as number) + cost * (this.inverse[row + c] as number);
    }
    this.work.add(m * m);
  }

  getReducedCost(column: LpColumn): number {
    let cost = column.cost;
    const { rows, values } = column;
    for (let k = 0; k < rows.length; k++) cost -= (this.duals[rows[k] as number] as number) * (values[k] as number);
    return cost;
  }

  private setDirection(variable: number): void {
    const m = this.size;
    const { direction, inverse } = this;
    if (variable < 0) {
      const row = -1 - variable;
      for (let r = 0; r < m; r++) direction[r] = -(inverse[r * m + row] as number);
      return;
    }
    const { rows, values } = this.columns[variable] as LpColumn;
    for (let r = 0; r < m; r++) {
      let sum = 0;
      const at = r * m;
      for (let k = 0; k < rows.length; k++)
        sum += (inverse[at + (rows[k] as number)] as number) * (values[k] as number);
      direction[r] = sum;
    }
    this.work.add(m * rows.length);
  }

  /** Solves over the columns present. @returns false when the budget ran out first. */
  solve(): boolean {
    for (;;) {
      if (this.work.isOut()) return false;
      const entering = this.chooseEntering();
      if (entering === undefined) return true;
      this.setDirection(entering);
      const leaving = this.chooseLeaving();
      if (leaving < 0) return true;
      this.pivot(entering, leaving);
    }
  }

  private chooseEntering(): number | undefined {
    let best = -COST_TOLERANCE;
    let entering: number | undefined;
    for (let j = 0; j < this.columns.length; j++) {
      if (this.isBasic[j]) continue;
      const reduced = this.getReducedCost(this.columns[j] as LpColumn);
      if (reduced < best) {
        best = reduced;
        entering = j;
      }
    }
    for (let r = 0; r < this.size; r++) {
      if ((this.duals[r] as number) < best) {
        best = this.duals[r] as number;
        entering = -1 - r;
      }
    }
    this.work.add(this.columns.length * 8);
    return entering;
  }

  private chooseLeaving(): number {
    let leaving = -1;
    let bestRatio = Number.POSITIVE_INFINITY;
    let bestPivot = 0;
    for (let r = 0; r < this.size; r++) {
      const step = this.direction[r] as number;
      if (step <= PIVOT_TOLERANCE) continue;
      const ratio = Math.max(0, this.basicValues[r] as number) / step;
      if (ratio < bestRatio - 1e-12 || (ratio <= bestRatio + 1e-12 && step > bestPivot)) {
        bestRatio = ratio;
        bestPivot = step;
        leaving = r;
      }
    }
    return leaving;
  }

  private pivot(entering: number, leaving: number): void {
    const m = this.size;
    const { inverse, direction, basicValues } = this;
    const pivotValue = direction[leaving] as number;
    const pivotRow = leaving * m;
    const reduced =
      entering >= 0 ? this.getReducedCost(this.columns[entering] as LpColumn) : (this.duals[-1 - entering] as number);
    for (let c = 0; c < m; c++) inverse[pivotRow + c] = (inverse[pivotRow + c] as number) / pivotValue;
    const step = Math.max(0, basicValues[leaving] as number) / pivotValue;
    let touched = 1;
    for (let r = 0; r < m; r++) {
      const factor = direction[r] as number;
      if (r === leaving || factor === 0) continue;
      touched++;
      basicValues[r] = (basicValues[r] as number) - factor * step;
      const row = r * m;
      for (let c = 0; c < m; c++) {
        inverse[row + c] = (inverse[row + c] as number) - factor * (inverse[pivotRow + c] as number);
      }
    }
    basicValues[leaving] = step;
    for (let c = 0; c < m; c++) {
      this.duals[c] = (this.duals[c] as number) + reduced * (inverse[pivotRow + c] as number);
    }
    const left = this.basis[leaving] as number;
    if (left >= 0) this.isBasic[left] = false;
    this.basis[leaving] = entering;
    if (entering >= 0) this.isBasic[entering] = true;
    this.work.add(touched * m);
    this.pivots++;
    if (++this.pivotsSinceRebuild >= PIVOTS_BETWEEN_REBUILDS + m) this.rebuild();
  }

  /** Inverts the basis afresh, so that rounding does not pile up. */
  private rebuild(): void {
    const m = this.size;
    this.pivotsSinceRebuild = 0;
    const matrix = new Float64Array(m * m);
    this.basis.forEach((variable, c) => {
      if (variable >= 0) {
        const { rows, values } = this.columns[variable] as LpColumn;
        rows.forEach((row, k) => {
          matrix[row * m + c] = values[k] as number;
        });
      } else if (variable >= -m) matrix[(-1 - variable) * m + c] = -1;
      else matrix[(-1 - m - variable) * m + c] = 1;
    });
    const inverse = invert(matrix, m);
    this.work.add(2 * m * m * m);
    if (!inverse) return;
    this.inverse = inverse;
    for (let r = 0; r < m; r++) {
      let sum = 0;
      for (let c = 0; c < m; c++) sum += (inverse[r * m + c] as number) * (this.right[c] as number);
      this.basicValues[r] = sum;
    }
    this.computeDuals();
  }

  /** Value of the current solution. */
  getObjective(): number {
    let sum = 0;
    for (let r = 0; r < this.size; r++) sum += this.getCost(this.basis[r] as number) * (this.basicValues[r] as number);
    return sum;
  }

  /** Basic columns over zero, with their values. */
  getSolution(): { column: number; value: number }[] {
    const solution: { column: number; value: number }[] = [];
    for (let r = 0; r < this.size; r++) {
      const variable = this.basis[r] as number;
      const value = this.basicValues[r] as number;
      if (variable >= 0 && value > 1e-5) solution.push({ column: variable, value });
    }
    return solution;
  }
}

/** Gauss-Jordan with row pivoting; `undefined` when the matrix is singular. */
function invert(matrix: Float64Array, m: number): Float64Array | undefined {
  const inverse = new Float64Array(m * m);
  for (let r = 0; r < m; r++) inverse[r * m + r] = 1;
  for (let c = 0; c < m; c++) {
    let pivotRow = c;
    for (let r = c + 1; r < m; r++) {
      if (Math.abs(matrix[r * m + c] as number) > Math.abs(matrix[pivotRow * m + c] as number)) pivotRow = r;
    }
    const pivotValue = matrix[pivotRow * m + c] as number;
    if (Math.abs(pivotValue) < 1e-11) return undefined;
    for (let k = 0; k < m; k++) {
      const a = matrix[pivotRow * m + k] as number;
      const b = inverse[pivotRow * m + k] as number;
      if (pivotRow !== c) {
        matrix[pivotRow * m + k] = matrix[c * m + k] as number;
        inverse[pivotRow * m + k] = inverse[c * m + k] as number;
      }
      matrix[c * m + k] = a / pivotValue;
      inverse[c * m + k] = b / pivotValue;
    }
    for (let r = 0; r < m; r++) {
      const factor = matrix[r * m + c] as number;
      if (r === c || factor === 0) continue;
      for (let k = c; k < m; k++)
        matrix[r * m + k] = (matrix[r * m + k] as number) - factor * (matrix[c * m + k] as number);
      for (let k = 0; k < m; k++)
        inverse[r * m + k] = (inverse[r * m + k] as number) - factor * (inverse[c * m + k] as number);
    }
  }
  return inverse;
}
