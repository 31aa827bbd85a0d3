/** Signs that need no shape of their own, so that no font has to have one. */
const SHAPELESS = /[\p{Cc}\p{Cf}\p{Variation_Selector}\s]/u;

/**
 * Code points that the sheet's fonts have, as runs in order: how many are passed over before a run and, after a point,
 * how many it has if more than one, in base 36. Read from the character maps of the fonts in `assets/fonts`; a test
 * compares it with them.
 */
const RUNS = [
  '0 c i.2n x.ga 2.3 4 3 8.28 1.3 3.2 1 1.7 d.8 2.6 4.7 1 1.k 1.ar b.12 2.7 1.13 1.2 11.k 2.2 8.r 5.5 h.2 1.2 1 8 5 ',
  '3 1.q 5.m 1 2 5.h 3 4.1z 6.3 2.2 1 1 4 q.a 5i.14 3.b 2.3 79.3o 1.8 2.2 2.m 1.7 1 3.4 2.9 2.2 2.4 8 4.2 1.5 2.p ',
  'ar.2 1.6 3.3 1.4 3.2 1 1.2 3.2 3.3 3.c 4.5 3.3 1.4 2 6 e.l ee.1m 4.t 11.2 1 2.2 1 2 6.4 1.7 1.3 1 1 2.2 1.d 1.3 ',
  '2.5 1 1.6 2.a 2.2 ci.12 a.19 3.j 1.2 6.3 1 1.2 3 1 1.5 2 3 9 6 4 a.3 16.2 2 8.2 1 9 2 6.r 4.2 3 1 4 3 1 2.2 1 2 ',
  '3.3 1.2 2 1.3 1 4 ef.7 1.j 1.p 1.k 1.7 1.2y 2.17 1.s 8.1b 1.h 1.p 9.i 4.d 9.g 1a 2 2s.2 12.9 9.t 183.16 6.l 1.e ',
  '2.9 1.18 1.e c.2 2 1 7 l.11 4.6 1i.70 4.m 2.6 2.12 2.6 2.8 1 1 1 1.v 2.1h 1.f 1.e 2.6 1.j 2.3 1.9 1.2t 5.8 2.r ',
  '1.d 3.m 2.3 2 1 g.2 4.2 3.2 4 e f.a 1.1r 1 2 1.1i 3 6.aq 6.2 2.6 2.5 2.2 1y.3 4 2 9 c 6.k v.2 j 1 2 1l.2 1o.a ',
  '46.bh 1.r 7.4 u u.4 1.4 2.s 1.11 1.4 3 1.7 2.1g 3.o 1.e 6.2 p 5.6 4.7k 6.2 2.2 1g.2 1t.2 21.8 l e.2 4.3 9.h i ',
  '1m.2 h.10 d.d 1q.2 5.r 4.6 1a.2 7f.o 1.7 3k.12 a.1i 9 4o 6 2.4 8 cx.4 1.3 2.g 2.4 1.9 n.2c 4.6 1.2f 4.4 6.11 ',
  '7.2m 35.t 3.a 7.2 6 12.s 3 z.6 2i 9 6 3 9.2 2.2 3 a 4 d.2 2 3 5 z.4 1.5 3.1v 2.7 1.2 1 2.3 4yq 50 a.g6e 10q.1c ',
  '90.4 4.2 2.2 2.4 a.d r.4 6.2 2.2 32.f 4.5 2.a 4.i 4.6 2.6 2.2 c.4 o.4 5.6 1.2 e.b 25.8 1c.a 4m.w lc.8mc 470 f3.q ',
  '4y 1f.4 sc.13 1.q hv fu.8e 5u.7 c.5 5.q 1.5 1 1.2 1.2 1.a 2.2a 6.4 11.a 1.2 4.6 i.4 e8.q 6.4 c.2 1.k 2.a 1.4 1.e ',
  '1.4 4.5 1.3r 2 1.2m 2.1r 1s.7 i.5 le.v 1.4 64 13 10.3 2wh 1 1j.2 11vn.2f dd.2 1.4 1.5 1 3.7 1.q 1g.1g ec.k 4d0.4 ',
  '1.r 1.2 1 2 1.a 1.4 1 1 11.2 1 2.4 1.7 1.4 1.4 1 c1.2s c.f 2.e 2.f 1.f fl.8 7o.2 2 3 cq.10 1.7 1.k 2',
].join('');

/**
 * Signs of a text for which the sheet's fonts have no shape, each once: the printed sheet shows a box in their place.
 *
 * @example findMissingSigns('Pawl 🔧') // ['🔧']
 */
export function findMissingSigns(text: string): string[] {
  return [...new Set(text)].filter((sign) => !SHAPELESS.test(sign) && !isCovered(sign.codePointAt(0) ?? 0));
}

interface Run {
  start: number;
  end: number;
}

const COVERED = unpack();

function unpack(): readonly Run[] {
  let next = 0;
  return RUNS.split(' ').map((run) => {
    const [gap = '0', length = '1'] = run.split('.');
    const start = next + Number.parseInt(gap, 36);
    next = start + Number.parseInt(length, 36);
    return { start, end: next };
  });
}

function isCovered(codePoint: number): boolean {
  let [low, high] = [0, COVERED.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((COVERED[middle]?.end ?? 0) <= codePoint) low = middle + 1;
    else high = middle;
  }
  return (COVERED[low]?.start ?? Number.POSITIVE_INFINITY) <= codePoint;
}
