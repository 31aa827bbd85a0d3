export interface WantedPlace {
  /** Where the middle of the label would stand if it were alone. */
  at: number;
  /** How much room it takes along the line. */
  size: number;
}

/**
 * Moves labels along a line so that none touches its neighbour and the sum of squared moves is least.
 *
 * @param places in ascending order of `at`
 * @param gap least room between two labels
 * @returns the middles, in the same order
 * @example spreadLabels([{ at: 0, size: 2 }, { at: 0, size: 2 }], 0) // [-1, 1]
 */
export function spreadLabels(places: readonly WantedPlace[], gap: number): number[] {
  const offsets = getOffsets(places, gap);
  // Without the offsets the condition is "ascending", whose least-squares answer is by pooling adjacent violators.
  const pools: { sum: number; count: number }[] = [];
  for (const [index, place] of places.entries()) {
    let pool = { sum: place.at - (offsets[index] ?? 0), count: 1 };
    for (let last = pools.at(-1); last && last.sum / last.count > pool.sum / pool.count; last = pools.at(-1)) {
      pool = { sum: last.sum + pool.sum, count: last.count + pool.count };
      pools.pop();
    }
    pools.push(pool);
  }
  const middles = pools.flatMap((pool) => Array.from({ length: pool.count }, () => pool.sum / pool.count));
  return middles.map((middle, index) => middle + (offsets[index] ?? 0));
}

function getOffsets(places: readonly WantedPlace[], gap: number): number[] {
  let offset = 0;
  return places.map((place, index) => {
    const before = places[index - 1];
    offset += before ? (before.size + place.size) / 2 + gap : 0;
    return offset;
  });
}
