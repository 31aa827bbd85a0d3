import { setAtPath } from '../model/edit';
import type { Plan, SeatChoice, StockChoice, WayUp } from '../model/plan';
import type { RemedyChange } from './results';

/** A new value for what stands at a path of the plan. */
export interface PlanEdit {
  path: (string | number)[];
  value: unknown;
}

/** What decides how a remedy is written into a plan. */
export interface RemedyPlace {
  plan: Plan;
  /** The seat in force. */
  seat: SeatChoice['kind'];
  /** True for jaws that a shelf may be milled into, by id. */
  isMillable: (jawSetId: string) => boolean;
}

/** A remedy as edits of the plan, in order; none where it names a cut the plan does not hold. */
export function getRemedyEdits({ plan, seat, isMillable }: RemedyPlace, change: RemedyChange): PlanEdit[] {
  switch (change.kind) {
    case 'grip':
      return seat === 'shelf'
        ? [{ path: ['holding', 'shelfDepth'], value: { pinned: change.targetGrip } }]
        : getSeatEdits(change.targetGrip);
    case 'stepDown':
      return change.cuts.flatMap(({ cutId, stepDown }) => getCutEdits(plan, cutId, 'stepDown', stepDown));
    case 'passDepth':
      return change.cuts.flatMap(({ cutId, sideEngagement }) =>
        getCutEdits(plan, cutId, 'sideEngagement', sideEngagement),
      );
    case 'jawSet': {
      const staysOnShelf = seat === 'shelf' && isMillable(change.jawSetId);
      return [
        { path: ['holding', 'jawSetId'], value: change.jawSetId },
        ...(staysOnShelf ? [] : getSeatEdits(change.grip)),
      ];
    }
    case 'clamp':
      return [{ path: ['holding', 'clamp'], value: change.clamp }];
    case 'vises':
      return [
        { path: ['holding', 'viseCount'], value: { pinned: change.count } },
        { path: ['holding', 'vises'], value: 'auto' },
      ];
    case 'bar':
      return [
        ...getBarEdits(plan.stock, change.barId, change.wayUp),
        // What the bar adds goes to the grip only where the seat is not held where it was.
        { path: ['holding', 'seat'], value: 'auto' },
        { path: ['holding', 'shelfDepth'], value: 'auto' },
      ];
    default:
      return change satisfies never;
  }
}

const MEASURED = ['measuredHeight', 'measuredThickness', 'measuredBow'] as const;

/** Another bar, or the same one another way up; what was measured of the bar in hand is not carried over to it. */
export function getBarEdits(stock: StockChoice, barId: string, wayUp: WayUp): PlanEdit[] {
  return [
    { path: ['stock', 'barId'], value: { pinned: barId } },
    { path: ['stock', 'wayUp'], value: { pinned: wayUp } },
    ...MEASURED.filter((key) => stock[key] !== null).map((key) => ({ path: ['stock', key], value: null })),
  ];
}

/** The plan with edits made, in order; the plan given is not changed. */
export function applyEdits(plan: Plan, edits: readonly PlanEdit[]): Plan {
  return edits.reduce((edited, edit) => setAtPath(edited, edit.path, edit.value), plan);
}

function getSeatEdits(grip: number): PlanEdit[] {
  return [
    { path: ['holding', 'targetGrip'], value: { pinned: grip } },
    { path: ['holding', 'seat'], value: 'auto' },
  ];
}

function getCutEdits(plan: Plan, cutId: string, field: 'stepDown' | 'sideEngagement', value: number): PlanEdit[] {
  const index = plan.cuts.findIndex(({ id }) => id === cutId);
  return index < 0 ? [] : [{ path: ['cuts', index, field], value }];
}
