import type { BinInstance } from '../../shared/nest/bin-instance';
import type { NestInput } from '../../shared/nest/types';

/** Bars that first-fit decreasing takes: longest piece first, each into the first bar that still has room. */
export function countFirstFitBins(instance: BinInstance): number {
  const rooms: number[] = [];
  for (const { length, demand } of [...instance.items].sort((a, b) => b.length - a.length)) {
    for (let n = 0; n < demand; n++) {
      const at = rooms.findIndex((room) => room >= length);
      if (at >= 0) rooms[at] = (rooms[at] as number) - length;
      else rooms.push(instance.capacity - length);
    }
  }
  return rooms.length;
}

/**
 * What first-fit decreasing pays for a shop's job: one part to a blank, remnants first, then the new bar that is cheapest for its
 * length, and a longer one only where that is too short.
 */
export function priceFirstFit(job: NestInput): number {
  const head = Math.max(job.ends.squaringTrimNm, job.ends.badEndLeftNm);
  const bars = job.stocks
    .map((stock) => {
      const right = stock.kind === 'remnant' ? 0 : job.ends.badEndRightNm;
      const tail = Math.max(job.ends.stubNm, right);
      const room = stock.lengthNm - (head > 0 ? head + job.kerfNm : 0) - tail + (tail === 0 ? job.kerfNm : 0);
      const price = (stock.costMinor ?? 0) + stock.worthMinor;
      return { room, price, left: stock.quantity ?? Number.POSITIVE_INFINITY, isRemnant: stock.kind === 'remnant' };
    })
    .sort((a, b) => Number(b.isRemnant) - Number(a.isRemnant) || a.price / a.room - b.price / b.room);
  const pieces = job.demands
    .map((demand) => ({ size: (demand.choices[0]?.lengthNm ?? 0) + job.kerfNm, parts: demand.parts }))
    .sort((a, b) => b.size - a.size);
  const rooms: number[] = [];
  let total = 0;
  for (const { size, parts } of pieces) {
    for (let n = 0; n < parts; n++) {
      const at = rooms.findIndex((room) => room >= size);
      if (at >= 0) {
        rooms[at] = (rooms[at] as number) - size;
        continue;
      }
      const bar = bars.find((its) => its.left > 0 && its.room >= size);
      if (!bar) return Number.NaN;
      bar.left--;
      total += bar.price;
      rooms.push(bar.room - size);
    }
  }
  return total;
}
