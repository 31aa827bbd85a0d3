import { buildPart } from '../../shared/model/build-part';
import { nextId } from '../../shared/model/next-id';
import type { Part, Plan } from '../../shared/model/plan';
import { replaceById } from './replace-by-id';

const FIRST_SIZES = {
  in: { length: 101.6, height: 25.4, thickness: 12.7 },
  mm: { length: 100, height: 25, thickness: 12 },
} as const;

/** The plan with a new part at the end of its list, and that part's id. */
export function addPart(plan: Plan): { plan: Plan; id: string } {
  const id = nextId(plan.parts, 'part');
  const part = buildPart({ id, name: `Part ${plan.parts.length + 1}`, ...FIRST_SIZES[plan.units] });
  return { plan: { ...plan, parts: [...plan.parts, part] }, id };
}

/** The plan with a copy of a part after it, and the copy's id. */
export function copyPart(plan: Plan, id: string): { plan: Plan; id: string } {
  const index = plan.parts.findIndex((part) => part.id === id);
  const part = plan.parts[index];
  if (part === undefined) return { plan, id };
  const copyId = nextId(plan.parts, 'part');
  const copy = { ...part, id: copyId, name: `${part.name} copy` };
  return { plan: { ...plan, parts: plan.parts.toSpliced(index + 1, 0, copy) }, id: copyId };
}

/** The other hand: everything along the length is turned end for end. What reaches past the part's end is cut off there. */
export function mirrorPart(part: Part): Part {
  const turn = <S extends { from: number; to: number }>(span: S): S => ({
    ...span,
    from: Math.max(0, part.length - span.to),
    to: Math.max(0, part.length - span.from),
  });
  const hands = { none: 'none', left: 'right', right: 'left' } as const;
  return {
    ...part,
    hand: hands[part.hand],
    stations: part.stations
      .map((station) => ({ ...turn(station), width: station.widthEnd, widthEnd: station.width }))
      .toReversed(),
    holes: part.holes.map((hole) => ({ ...hole, x: part.length - hole.x })),
    keepOuts: part.keepOuts.map(turn).toReversed(),
  };
}

export function changePart(plan: Plan, id: string, change: (part: Part) => Part): Plan {
  return { ...plan, parts: replaceById(plan.parts, id, change) };
}
