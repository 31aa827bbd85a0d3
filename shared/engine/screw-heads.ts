/** Head of a socket-head cap screw, mm: largest diameter and height. */
export interface ScrewHead {
  diameter: number;
  height: number;
}

const inch = 25.4;

/** Socket-head cap screws by thread. Metric: ISO 4762 (dk, k). Inch: ASME B18.3, largest head diameter and height. */
const SCREW_HEADS: Readonly<Record<string, ScrewHead>> = {
  M6: { diameter: 10, height: 6 },
  M8: { diameter: 13, height: 8 },
  M10: { diameter: 16, height: 10 },
  M12: { diameter: 18, height: 12 },
  M16: { diameter: 24, height: 16 },
  '1/4': { diameter: 0.375 * inch, height: 0.25 * inch },
  '5/16': { diameter: 0.469 * inch, height: 0.312 * inch },
  '3/8': { diameter: 0.562 * inch, height: 0.375 * inch },
  '1/2': { diameter: 0.75 * inch, height: 0.5 * inch },
  '5/8': { diameter: 0.938 * inch, height: 0.625 * inch },
};

/** The head that belongs to a thread (`M10`, `3/8`, `3/8-16`); null for one that is not in the table. */
export function getScrewHead(thread: string): ScrewHead | null {
  const size = thread.trim().split('-')[0] ?? '';
  return Object.hasOwn(SCREW_HEADS, size) ? (SCREW_HEADS[size] ?? null) : null;
}
