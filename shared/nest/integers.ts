/** Greatest common divisor of two whole numbers, 0 or more. */
export function getGcd(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y > 0) [x, y] = [y, x % y];
  return x;
}
