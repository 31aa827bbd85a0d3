import { getJawSpans, getPartX } from '../../../shared/drawing/scene';
import type { Mover, Setting } from './mover';
import { getPieceName } from './piece-name';

/** The line on which the end section is taken. It is looked at, not planned, so it changes no plan. */
export function getSectionMover({ scene, sectionX }: Setting): Mover {
  return {
    features: [{ kind: 'field', id: 'sectionX' }],
    name: 'section A',
    measure: 'from the stop',
    axis: 'X',
    origin: 0,
    sign: 1,
    value: sectionX,
    least: Number.NEGATIVE_INFINITY,
    pinned: false,
    anchors: [{ offset: 0, label: 'section' }],
    snapLines: [
      ...scene.parts.flatMap((piece) => {
        const name = getPieceName(scene, piece);
        return [
          { at: (piece.left + piece.right) / 2, label: `middle of ${name}` },
          ...piece.part.holes.map((hole) => ({ at: getPartX(piece, hole.x), label: `hole of ${name}` })),
          ...(piece.rib?.tabs ?? []).map((tab, index) => ({
            at: getPartX(piece, tab.x),
            label: `tab ${index + 1} of ${name}`,
          })),
        ];
      }),
      ...getJawSpans(scene).map((span, index) => ({
        at: (span.left + span.right) / 2,
        label: `middle of vise ${index + 1}`,
      })),
    ],
    isMoved: (feature) => feature.kind === 'field' && feature.id === 'sectionX',
    apply: null,
    release: null,
  };
}
