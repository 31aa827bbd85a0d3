import type { Remedy, RemedyChange } from '../engine/results';
import type { Fix } from './finding';
import type { Judge } from './judge';

type Edits = Fix['edits'];

/**
 * A remedy of the engine as a fix of the plan. What the engine has worked out is what the edits ask for; where it then
 * rounds, such as a seat to its step, the factor comes out near to the one the remedy names.
 */
export function buildRemedyFix(remedy: Remedy, judge: Judge): Fix {
  return { label: remedy.sentence.replace(/\.$/, ''), edits: getEdits(remedy.change, judge) };
}

function getEdits(change: RemedyChange, judge: Judge): Edits {
  const isShelf = judge.judged.seat?.choice.value.kind === 'shelf';
  switch (change.kind) {
    case 'grip':
      return isShelf
        ? [{ path: ['holding', 'shelfDepth'], value: { pinned: change.targetGrip } }]
        : getSeatEdits(change.targetGrip);
    case 'stepDown':
      return change.cuts.flatMap(({ cutId, stepDown }) => getCutEdits(judge, cutId, 'stepDown', stepDown));
    case 'passDepth':
      return change.cuts.flatMap(({ cutId, sideEngagement }) =>
        getCutEdits(judge, cutId, 'sideEngagement', sideEngagement),
      );
    case 'jawSet': {
      const jaws = [...judge.plan.library.jawSets, ...judge.shop.jawSets].find(({ id }) => id === change.jawSetId);
      const staysOnShelf = isShelf && jaws?.millable === true;
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
        { path: ['stock', 'barId'], value: { pinned: change.barId } },
        { path: ['stock', 'wayUp'], value: { pinned: change.wayUp } },
        // What the bar adds goes to the grip only where the seat is not held where it was.
        { path: ['holding', 'seat'], value: 'auto' },
        { path: ['holding', 'shelfDepth'], value: 'auto' },
      ];
    default:
      return change satisfies never;
  }
}

function getSeatEdits(grip: number): Edits {
  return [
    { path: ['holding', 'targetGrip'], value: { pinned: grip } },
    { path: ['holding', 'seat'], value: 'auto' },
  ];
}

function getCutEdits(judge: Judge, cutId: string, field: 'stepDown' | 'sideEngagement', value: number): Edits {
  const index = judge.plan.cuts.findIndex(({ id }) => id === cutId);
  return index < 0 ? [] : [{ path: ['cuts', index, field], value }];
}
