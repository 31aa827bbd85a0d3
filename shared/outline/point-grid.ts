import { getDistance, type Point } from './point';

/** Finds what was put down near a place, by cells as wide as the distance asked for. */
export class PointGrid<T> {
  readonly #cells = new Map<string, { point: Point; value: T }[]>();
  readonly #within: number;

  /** @param within the largest distance that counts as near, above zero */
  constructor(within: number) {
    this.#within = within;
  }

  add(point: Point, value: T): void {
    const key = this.#getKey(this.#getCell(point.x), this.#getCell(point.y));
    const cell = this.#cells.get(key);
    if (cell === undefined) this.#cells.set(key, [{ point, value }]);
    else cell.push({ point, value });
  }

  /** What lies within the distance, nearest first. */
  findNear(point: Point): { value: T; distance: number }[] {
    const [column, row] = [this.#getCell(point.x), this.#getCell(point.y)];
    const found: { value: T; distance: number }[] = [];
    for (let dx = -1; dx <= 1; dx += 1) {
      for (let dy = -1; dy <= 1; dy += 1) {
        for (const entry of this.#cells.get(this.#getKey(column + dx, row + dy)) ?? []) {
          const distance = getDistance(point, entry.point);
          if (distance <= this.#within) found.push({ value: entry.value, distance });
        }
      }
    }
    return found.sort((a, b) => a.distance - b.distance);
  }

  #getCell(coordinate: number): number {
    return Math.floor(coordinate / this.#within);
  }

  #getKey(column: number, row: number): string {
    return `${column},${row}`;
  }
}
