/**
 * A repeatable stream of numbers: the same seed gives the same stream on every machine. xorshift with a state of 128 bits:
 * Marsaglia, Xorshift RNGs, Journal of Statistical Software 8 (2003). For sampling, never for secrets.
 */
export interface RandomStream {
  /** Evenly spread, 0 to under 1. */
  nextEven: () => number;
  /**
   * Normally spread about 0 with a standard deviation of 1, tails and all: the ziggurat of Marsaglia and Tsang, Journal of
   * Statistical Software 5 (2000), with the layer drawn apart from the place in it, after Doornik (2005).
   */
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
  const state = Uint32Array.from(getState(seed));
  const words = new Uint32Array(BLOCK);
  let at = BLOCK;
  const nextWord = (): number => {
    if (at === BLOCK) {
      fillWords(state, words);
      at = 0;
    }
    const word = words[at] as number;
    at += 1;
    return word;
  };
  const nextEven = (): number => nextWord() / 2 ** 32;
  /** Beyond the last edge; Marsaglia, Technometrics 6 (1964). */
  const nextTail = (): number => {
    for (;;) {
      const beyond = -Math.log(1 - nextEven()) / TAIL;
      if (-2 * Math.log(1 - nextEven()) >= beyond * beyond) return TAIL + beyond;
    }
  };
  const nextNormal = (): number => {
    for (;;) {
      const layer = nextWord() & (LAYERS - 1);
      const place = nextWord() / 2 ** 31 - 1;
      const outer = EDGES[layer] as number;
      const inner = EDGES[layer + 1] as number;
      const x = place * outer;
      if (Math.abs(x) < inner) return x;
      if (layer === 0) return place < 0 ? -nextTail() : nextTail();
      const low = getBell(outer);
      if (low + nextEven() * (getBell(inner) - low) < getBell(x)) return x;
    }
  };
  for (let draw = 0; draw < WARM_UP; draw += 1) nextWord();
  return { nextEven, nextNormal };
}

/** Words drawn at a time, so that they stay plain words; kept one by one, each over 31 bits would be an object. */
const BLOCK = 256;

function fillWords(state: Uint32Array, words: Uint32Array): void {
  let [a = 0, b = 0, c = 0, d = 0] = state;
  for (let index = 0; index < words.length; index += 1) {
    const t = a ^ (a << 11);
    a = b;
    b = c;
    c = d;
    d = d ^ (d >>> 19) ^ (t ^ (t >>> 8));
    words[index] = d;
  }
  state.set([a, b, c, d]);
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

/** Layers of equal area under the bell, and where the tail begins: Marsaglia and Tsang, for 128 layers. */
const LAYERS = 128;
const TAIL = 3.442619855899;
const LAYER_AREA = 9.91256303526217e-3;
const EDGES = getEdges();

function getBell(x: number): number {
  return Math.exp(-(x ** 2) / 2);
}

/** Right edge of each layer from the lowest up; the lowest is as wide as if its tail were part of the box. */
function getEdges(): Float64Array {
  const edges = new Float64Array(LAYERS + 1);
  edges[0] = LAYER_AREA / getBell(TAIL);
  edges[1] = TAIL;
  for (let layer = 2; layer < LAYERS; layer += 1) {
    const below = edges[layer - 1] as number;
    edges[layer] = Math.sqrt(-2 * Math.log(LAYER_AREA / below + getBell(below)));
  }
  return edges;
}
