import type { WorkMeter } from './work-meter';

/** One column of the linear program, sparse. */
export interface LpColumn {
  readonly cost: number;
  readonly rows: readonly number[];
  readonly values: readonly number[];
}

const COST_TOLERANCE = 1e-9;
const PIVOT_TOLERANCE = 1e-9;
/** Entering variables kept for the pivots after a full look at all columns. */
const MAX_CANDIDATES = 24;
/** Pivots for each row after which one solve is given up: far beyond what any job takes. */
const MAX_PIVOTS_PER_ROW = 100;
const PIVOTS_BETWEEN_REBUILDS = 400;

/**
 * Linear program `min c x, A x >= b, x >= 0` that grows by columns: revised primal simplex with a dense inverse.
 *
 * Every row starts on its surplus where `b <= 0` and on an artificial variable at `artificialCost` elsewhere. The right side
 * is nudged by a hair, different in every row, so that degenerate steps do not cycle; read the duals, which do not feel it.
 */
export class MasterLp {
  readonly columns: LpColumn[] = [];
  /** The same columns laid end to end: rows and values of column j from `starts[j]` up to `starts[j + 1]`. */
  private starts = new Int32Array(257);
  private flatRows = new Int32Array(2048);
  private flatValues = new Float64Array(2048);
  private costs = new Float64Array(256);
  /** Columns and surpluses that looked worth entering at the last full look, for the next few pivots. */
  private candidates: number[] = [];
  private readonly pivotPlaces: Int32Array;
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
    this.pivotPlaces = new Int32Array(m);
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
    const j = this.columns.length;
    const from = this.starts[j] as number;
    const to = from + column.rows.length;
    if (j + 2 > this.starts.length) this.starts = grow(this.starts, new Int32Array(2 * this.starts.length));
    if (j + 1 > this.costs.length) this.costs = grow(this.costs, new Float64Array(2 * this.costs.length));
    if (to > this.flatRows.length) {
      const size = 2 * Math.max(to, this.flatRows.length);
      this.flatRows = grow(this.flatRows, new Int32Array(size));
      this.flatValues = grow(this.flatValues, new Float64Array(size));
    }
    this.flatRows.set(column.rows, from);
    this.flatValues.set(column.values, from);
    this.starts[j + 1] = to;
    this.costs[j] = column.cost;
    this.columns.push(column);
    this.isBasic.push(false);
  }

  private reduceCost(j: number): number {
    const { flatRows, flatValues, duals } = this;
    let cost = this.costs[j] as number;
    const end = this.starts[j + 1] as number;
    for (let at = this.starts[j] as number; at < end; at++) {
      cost -= (duals[flatRows[at] as number] as number) * (flatValues[at] as number);
    }
    return cost;
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

  private setDirection(variable: number): void {
    const m = this.size;
    const { direction, inverse } = this;
    if (variable < 0) {
      const row = -1 - variable;
      for (let r = 0; r < m; r++) direction[r] = -(inverse[r * m + row] as number);
      return;
    }
    const { flatRows, flatValues } = this;
    const from = this.starts[variable] as number;
    const end = this.starts[variable + 1] as number;
    for (let r = 0; r < m; r++) {
      let sum = 0;
      const row = r * m;
      for (let at = from; at < end; at++)
        sum += (inverse[row + (flatRows[at] as number)] as number) * (flatValues[at] as number);
      direction[r] = sum;
    }
    this.work.add(m * (end - from));
  }

  /** Solves over the columns present. @returns false when the budget ran out, or rounding kept it from coming to an end. */
  solve(): boolean {
    const most = this.pivots + MAX_PIVOTS_PER_ROW * (this.size + 10);
    for (;;) {
      if (this.work.isOut() || this.pivots >= most) return false;
      const entering = this.chooseEntering();
      if (entering === undefined) return true;
      this.setDirection(entering);
      const leaving = this.chooseLeaving();
      if (leaving < 0) return true;
      this.pivot(entering, leaving);
    }
  }

  /** The most promising of the candidates of the last full look; a new full look when none of them is left. */
  private chooseEntering(): number | undefined {
    const { candidates } = this;
    let best = -COST_TOLERANCE;
    let entering: number | undefined;
    for (const variable of candidates) {
      if (variable >= 0 && this.isBasic[variable]) continue;
      const reduced = variable >= 0 ? this.reduceCost(variable) : (this.duals[-1 - variable] as number);
      if (reduced >= best) continue;
      best = reduced;
      entering = variable;
    }
    this.work.add(candidates.length * 4);
    return entering ?? this.lookAtAll();
  }

  private lookAtAll(): number | undefined {
    const found: { variable: number; reduced: number }[] = [];
    let worst = -COST_TOLERANCE;
    const consider = (variable: number, reduced: number): void => {
      found.push({ variable, reduced });
      if (found.length < 3 * MAX_CANDIDATES) return;
      found.sort((a, b) => a.reduced - b.reduced);
      found.length = MAX_CANDIDATES;
      worst = found[MAX_CANDIDATES - 1]?.reduced ?? worst;
    };
    for (let j = 0; j < this.columns.length; j++) {
      if (this.isBasic[j]) continue;
      const reduced = this.reduceCost(j);
      if (reduced < worst) consider(j, reduced);
    }
    for (let r = 0; r < this.size; r++) {
      const reduced = this.duals[r] as number;
      if (reduced < worst) consider(-1 - r, reduced);
    }
    this.work.add(this.columns.length * 4);
    found.sort((a, b) => a.reduced - b.reduced);
    if (found.length > MAX_CANDIDATES) found.length = MAX_CANDIDATES;
    this.candidates = found.map(({ variable }) => variable);
    return found[0]?.variable;
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
    const reduced = entering >= 0 ? this.reduceCost(entering) : (this.duals[-1 - entering] as number);
    const places = this.pivotPlaces;
    let filled = 0;
    for (let c = 0; c < m; c++) {
      const value = inverse[pivotRow + c] as number;
      if (value === 0) continue;
      inverse[pivotRow + c] = value / pivotValue;
      places[filled++] = c;
    }
    const step = Math.max(0, basicValues[leaving] as number) / pivotValue;
    let touched = 1;
    for (let r = 0; r < m; r++) {
      const factor = direction[r] as number;
      if (r === leaving || Math.abs(factor) < 1e-14) continue;
      touched++;
      basicValues[r] = (basicValues[r] as number) - factor * step;
      const row = r * m;
      for (let k = 0; k < filled; k++) {
        const c = places[k] as number;
        inverse[row + c] = (inverse[row + c] as number) - factor * (inverse[pivotRow + c] as number);
      }
    }
    basicValues[leaving] = step;
    for (let k = 0; k < filled; k++) {
      const c = places[k] as number;
      this.duals[c] = (this.duals[c] as number) + reduced * (inverse[pivotRow + c] as number);
    }
    const left = this.basis[leaving] as number;
    if (left >= 0) this.isBasic[left] = false;
    this.basis[leaving] = entering;
    if (entering >= 0) this.isBasic[entering] = true;
    this.work.add(touched * filled + m);
    this.pivots++;
    if (++this.pivotsSinceRebuild >= PIVOTS_BETWEEN_REBUILDS + 2 * m) this.rebuild();
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

function grow<T extends Int32Array | Float64Array>(from: T, to: T): T {
  to.set(from);
  return to;
}
