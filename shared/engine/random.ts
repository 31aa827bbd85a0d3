/**
 * A repeatable stream of numbers: the same seed gives the same stream on every machine. xorshift with a state of 128 bits:
 * Marsaglia, Xorshift RNGs, Journal of Statistical Software 8 (2003). For sampling, never for secrets.
 */
export interface RandomStream {
  /** Evenly spread, 0 to under 1. */
  nextEven: () => number;
  /** Normally spread about 0 with a standard deviation of 1: Box and Muller, Ann. Math. Statist. 29 (1958). */
  nextNormal: () => number;
}

/** Draws thrown away first, so that near seeds give unlike streams. */
const WARM_UP = 20;

/**
 * A stream for a seed.
 *
 * @param seed any finite number; only its whole part to 32 bits counts
 */
export function getRandomStream(seed: number): RandomStream {
  let [a, b, c, d] = getState(seed);
  let kept: number | null = null;
  const nextWord = (): number => {
    const t = a ^ (a << 11);
    a = b;
    b = c;
    c = d;
    d = (d ^ (d >>> 19) ^ (t ^ (t >>> 8))) >>> 0;
    return d;
  };
  const nextEven = (): number => nextWord() / 2 ** 32;
  const nextNormal = (): number => {
    if (kept !== null) {
      const normal = kept;
      kept = null;
      return normal;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - nextEven()));
    const angle = 2 * Math.PI * nextEven();
    kept = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  for (let draw = 0; draw < WARM_UP; draw += 1) nextWord();
  return { nextEven, nextNormal };
}

/** Four words from one, by a multiplicative generator; never all zero. */
function getState(seed: number): [number, number, number, number] {
  let word = (Number.isFinite(seed) ? Math.trunc(seed) : 0) >>> 0;
  const next = (): number => {
    word = (Math.imul(word, 1_664_525) + 1_013_904_223) >>> 0;
    return word;
  };
  return [next(), next(), next(), next() | 1];
}
