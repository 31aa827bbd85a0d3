import { getJawSpans, type Scene } from '../../../shared/drawing/scene';
import { isPinned } from '../../../shared/model/choice';
import type { Mover, Setting, SnapLine } from './mover';
import { getPieceName } from './piece-name';

/** One vise or several along the table; the first is in the hand, the others keep their distance to it. */
export function getViseMover({ scene }: Setting, indexes: readonly number[]): Mover | null {
  const centres = scene.vises.centres.value;
  const known = indexes.filter((index) => centres[index] !== undefined);
  const [first] = known;
  const centre = first === undefined ? undefined : centres[first];
  if (first === undefined || centre === undefined) return null;
  const moved = new Set(known);
  const half = scene.vise.jawWidth / 2;
  const body = scene.vise.bodyLength / 2;
  const gap = Math.max(0, scene.shop.rules.viseGap);
  return {
    features: known.map((index) => ({ kind: 'vise', id: String(index) })),
    name: known.length > 1 ? `${known.length} vises` : `vise ${first + 1}`,
    measure: 'centre from the stop',
    axis: 'X',
    origin: 0,
    sign: 1,
    value: centre,
    least: Number.NEGATIVE_INFINITY,
    pinned: isPinned(scene.plan.holding.vises),
    anchors: [
      { offset: 0, label: 'centre' },
      { offset: -half, label: 'left jaw edge' },
      { offset: half, label: 'right jaw edge' },
      { offset: -(body + gap), label: 'left side of the body', meets: 'body' },
      { offset: body + gap, label: 'right side of the body', meets: 'body' },
    ],
    snapLines: getSnapLines(scene, moved),
    isMoved: (feature) => isOfVise(feature, moved),
    apply(plan, value) {
      const row = getRow(centres, moved, value - centre);
      return { ...plan, holding: { ...plan.holding, vises: { pinned: row.map((one) => one.centre) } } };
    },
    // Vises are numbered from the left, so one that is carried past another changes its number.
    getMoved: (value) =>
      getRow(centres, moved, value - centre).flatMap((one, index) =>
        moved.has(one.was) ? [{ kind: 'vise', id: String(index) }] : [],
      ),
    release: (plan) => ({ ...plan, holding: { ...plan.holding, vises: 'auto' } }),
  };
}

/** The row of vises after some of them have moved, from the left. */
function getRow(centres: readonly number[], moved: ReadonlySet<number>, by: number): { was: number; centre: number }[] {
  return centres
    .map((centre, was) => ({ was, centre: moved.has(was) ? centre + by : centre }))
    .toSorted((a, b) => a.centre - b.centre || a.was - b.was);
}

function isOfVise(feature: { kind: string; id: string }, moved: ReadonlySet<number>): boolean {
  return (feature.kind === 'vise' || feature.kind === 'jaw') && moved.has(getViseIndex(feature.id));
}

/** Index of the vise in the id of a vise or of one of its jaws: "2", "fixed:2". */
export function getViseIndex(id: string): number {
  return Number(id.slice(id.lastIndexOf(':') + 1));
}

/**
 * Jaws as places to rest on for what is moved over the vises; none while auto places the vises, since they then go along.
 */
export function getJawSnapLines(scene: Scene): SnapLine[] {
  if (!isPinned(scene.plan.holding.vises)) return [];
  return getJawSpans(scene).flatMap((span, index) => [
    { at: span.left, label: `left jaw edge of vise ${index + 1}` },
    { at: span.right, label: `right jaw edge of vise ${index + 1}` },
    { at: (span.left + span.right) / 2, label: `middle of vise ${index + 1}` },
  ]);
}

function getSnapLines(scene: Scene, moved: ReadonlySet<number>): SnapLine[] {
  const { blank } = scene;
  const lines: SnapLine[] = [
    { at: blank.x, label: 'left end of the bar' },
    { at: blank.xEnd, label: 'right end of the bar' },
    { at: (blank.x + blank.xEnd) / 2, label: 'middle of the bar' },
  ];
  for (const piece of scene.parts) {
    const name = getPieceName(scene, piece);
    lines.push(
      { at: (piece.left + piece.right) / 2, label: `middle of ${name}` },
      { at: piece.left, label: `left end of ${name}` },
      { at: piece.right, label: `right end of ${name}` },
    );
  }
  const body = scene.vise.bodyLength / 2;
  for (const [index, centre] of scene.vises.centres.value.entries()) {
    if (moved.has(index)) continue;
    lines.push(
      { at: centre + body, label: `right side of vise ${index + 1}`, meets: 'body' },
      { at: centre - body, label: `left side of vise ${index + 1}`, meets: 'body' },
    );
  }
  lines.push({ at: 0, label: 'work stop' }, ...getEvenLines(scene, moved));
  return lines;
}

/** Halfway between two other vises. */
function getEvenLines(scene: Scene, moved: ReadonlySet<number>): SnapLine[] {
  const spans = getJawSpans(scene);
  const others = spans.flatMap((span, index) =>
    moved.has(index) ? [] : [{ index, centre: (span.left + span.right) / 2 }],
  );
  return others.slice(1).map((right, at) => {
    const left = others[at] ?? right;
    return {
      at: (left.centre + right.centre) / 2,
      label: `halfway between vises ${left.index + 1} and ${right.index + 1}`,
    };
  });
}
