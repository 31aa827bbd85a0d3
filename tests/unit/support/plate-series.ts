/**
 * Deflection of a cantilever plate under a point load by the method of Ritz: an independent check of the planner's 45°
 * estimate. The plate stands on its clamped foot (y 0), free on the three other edges; Kirchhoff bending energy with
 * Poisson's ratio, deflection as a double series of Legendre polynomials with y² in front.
 */
export interface PlateCase {
  length: number;
  height: number;
  thickness: number;
  youngsModulusMPa: number;
  poisson: number;
  /** Place of the load and of the deflection wanted. */
  loadX: number;
  loadY: number;
}

const TERMS_X = 16;
const TERMS_Y = 10;
const GAUSS = 28;

interface Basis {
  value: number[];
  slope: number[];
  curve: number[];
}

/** Deflection under a load of one newton, mm. */
export function computePlateDeflection(plate: PlateCase): number {
  const { nodes, weights } = getGauss(GAUSS);
  const alongX = nodes.map((node) => getAlong(node, plate.length));
  const upY = nodes.map((node) => getUp((node + 1) / 2, plate.height));
  const size = TERMS_X * TERMS_Y;
  const stiffness = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const rigidity = (plate.youngsModulusMPa * plate.thickness ** 3) / (12 * (1 - plate.poisson ** 2));
  const x = getProducts(alongX, weights, plate.length / 2);
  const y = getProducts(upY, weights, plate.height / 2);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      const [i, j] = [Math.floor(row / TERMS_Y), row % TERMS_Y];
      const [k, l] = [Math.floor(column / TERMS_Y), column % TERMS_Y];
      const bendX = at(x.curveCurve, i, k) * at(y.valueValue, j, l);
      const bendY = at(x.valueValue, i, k) * at(y.curveCurve, j, l);
      const cross = at(x.curveValue, i, k) * at(y.curveValue, l, j) + at(x.curveValue, k, i) * at(y.curveValue, j, l);
      const twist = at(x.slopeSlope, i, k) * at(y.slopeSlope, j, l);
      const entry = bendX + bendY + plate.poisson * cross + 2 * (1 - plate.poisson) * twist;
      (stiffness[row] as number[])[column] = rigidity * entry;
    }
  }
  const loadAlong = getAlong((2 * plate.loadX) / plate.length - 1, plate.length).value;
  const loadUp = getUp(plate.loadY / plate.height, plate.height).value;
  const load = Array.from(
    { length: size },
    (_, row) => (loadAlong[Math.floor(row / TERMS_Y)] ?? 0) * (loadUp[row % TERMS_Y] ?? 0),
  );
  const solution = solve(stiffness, load);
  return solution.reduce((sum, factor, row) => sum + factor * (load[row] ?? 0), 0);
}

function at(matrix: readonly (readonly number[])[], row: number, column: number): number {
  return matrix[row]?.[column] ?? 0;
}

/** Legendre polynomials along X at a place from -1 to 1, with slopes and curvatures in mm. */
function getAlong(place: number, length: number): Basis {
  const { value, slope, curve } = getLegendre(place, TERMS_X);
  const scale = 2 / length;
  return { value, slope: slope.map((one) => one * scale), curve: curve.map((one) => one * scale ** 2) };
}

/** y² times Legendre polynomials up the wall at a place from 0 to 1. */
function getUp(place: number, height: number): Basis {
  const { value, slope, curve } = getLegendre(2 * place - 1, TERMS_Y);
  const square = place ** 2;
  return {
    value: value.map((one) => one * square),
    slope: value.map((one, j) => (2 * place * one + square * 2 * (slope[j] ?? 0)) / height),
    curve: value.map((one, j) => (2 * one + 8 * place * (slope[j] ?? 0) + square * 4 * (curve[j] ?? 0)) / height ** 2),
  };
}

function getLegendre(place: number, count: number): Basis {
  const value = [1, place];
  const slope = [0, 1];
  const curve = [0, 0];
  for (let n = 1; n + 1 < count; n += 1) {
    const [v, v1] = [value[n] ?? 0, value[n - 1] ?? 0];
    value.push(((2 * n + 1) * place * v - n * v1) / (n + 1));
    slope.push((slope[n - 1] ?? 0) + (2 * n + 1) * v);
    curve.push((curve[n - 1] ?? 0) + (2 * n + 1) * (slope[n] ?? 0));
  }
  return { value, slope, curve };
}

function getProducts(bases: readonly Basis[], weights: readonly number[], jacobian: number) {
  const integrate = (left: keyof Basis, right: keyof Basis): number[][] => {
    const count = bases[0]?.value.length ?? 0;
    return Array.from({ length: count }, (_, i) =>
      Array.from({ length: count }, (_unused, k) =>
        bases.reduce(
          (sum, basis, g) => sum + (weights[g] ?? 0) * jacobian * (basis[left][i] ?? 0) * (basis[right][k] ?? 0),
          0,
        ),
      ),
    );
  };
  return {
    valueValue: integrate('value', 'value'),
    slopeSlope: integrate('slope', 'slope'),
    curveCurve: integrate('curve', 'curve'),
    curveValue: integrate('curve', 'value'),
  };
}

/** Gauss-Legendre nodes and weights by Newton's method. */
function getGauss(count: number): { nodes: number[]; weights: number[] } {
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let index = 0; index < count; index += 1) {
    let place = Math.cos((Math.PI * (index + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let step = 0; step < 50; step += 1) {
      const { value, slope: slopes } = getLegendre(place, count + 1);
      slope = slopes[count] ?? 1;
      place -= (value[count] ?? 0) / slope;
    }
    nodes.push(place);
    weights.push(2 / ((1 - place ** 2) * slope ** 2));
  }
  return { nodes, weights };
}

/** Symmetric positive definite system by Cholesky. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const size = right.length;
  const lower = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let i = 0; i < size; i += 1) {
    const row = lower[i] as number[];
    for (let j = 0; j <= i; j += 1) {
      const other = lower[j] as number[];
      let sum = at(matrix, i, j);
      for (let k = 0; k < j; k += 1) sum -= (row[k] as number) * (other[k] as number);
      row[j] = i === j ? Math.sqrt(Math.max(sum, Number.MIN_VALUE)) : sum / (other[j] as number);
    }
  }
  const forward: number[] = [];
  for (let i = 0; i < size; i += 1) {
    let sum = right[i] ?? 0;
    for (let k = 0; k < i; k += 1) sum -= at(lower, i, k) * (forward[k] ?? 0);
    forward.push(sum / at(lower, i, i));
  }
  const solution = new Array<number>(size).fill(0);
  for (let i = size - 1; i >= 0; i -= 1) {
    let sum = forward[i] ?? 0;
    for (let k = i + 1; k < size; k += 1) sum -= at(lower, k, i) * (solution[k] ?? 0);
    solution[i] = sum / at(lower, i, i);
  }
  return solution;
}
