import type { Scene } from '../../../shared/drawing/scene';
import { isPinned } from '../../../shared/model/choice';
import type { Mover, Setting, SnapLine } from './mover';
import { getJawSnapLines } from './vise-mover';

const WITH_THE_BAR = new Set(['blank', 'bar', 'part', 'tab', 'rib', 'cutter']);

/** The bar along the vises, from its stop. */
export function getBarMover({ scene }: Setting): Mover {
  const { blank, plan } = scene;
  const length = blank.xEnd - blank.x;
  return {
    features: [{ kind: 'blank', id: blank.templateId }],
    name: 'the bar',
    measure: 'left end from the stop',
    axis: 'X',
    origin: 0,
    sign: 1,
    value: blank.x,
    least: Number.NEGATIVE_INFINITY,
    pinned: isPinned(plan.holding.blankX),
    anchors: [
      { offset: 0, label: 'left end' },
      { offset: length, label: 'right end' },
      { offset: length / 2, label: 'middle' },
      { offset: length / 2, label: 'middle', meets: 'middle' },
    ],
    snapLines: [{ at: 0, label: 'work stop' }, ...getJawSnapLines(scene), ...getMiddleOfVises(scene)],
    isMoved: (feature) => WITH_THE_BAR.has(feature.kind),
    apply: (before, value) => ({ ...before, holding: { ...before.holding, blankX: { pinned: value } } }),
    release: (before) => ({ ...before, holding: { ...before.holding, blankX: 'auto' } }),
  };
}

/** Where the bar stands out alike on either side. */
function getMiddleOfVises({ plan, vises }: Scene): SnapLine[] {
  const centres = vises.centres.value;
  if (!isPinned(plan.holding.vises) || centres.length < 2) return [];
  return [{ at: (Math.min(...centres) + Math.max(...centres)) / 2, label: 'middle of the vises', meets: 'middle' }];
}
