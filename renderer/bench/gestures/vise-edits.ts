import type { Scene } from '../../../shared/drawing/scene';
import type { Plan } from '../../../shared/model/plan';

/** The plan with the vises at these centres, numbered from the left. */
export function applyCentres(plan: Plan, centres: readonly number[]): Plan {
  const row = centres.toSorted((a, b) => a - b);
  return { ...plan, holding: { ...plan.holding, vises: { pinned: row } } };
}

/** Sets vises at equal distances; the first and the last stay. With fewer than three chosen, all of them are set. */
export function applyEvenVises(plan: Plan, scene: Scene, chosen: ReadonlySet<number>): Plan {
  const centres = scene.vises.centres.value;
  const indexes = chosen.size >= 3 ? [...chosen].toSorted((a, b) => a - b) : [...centres.keys()];
  const first = centres[indexes[0] ?? 0] ?? 0;
  const last = centres[indexes.at(-1) ?? 0] ?? first;
  const pitch = indexes.length > 1 ? (last - first) / (indexes.length - 1) : 0;
  const moved = new Map(indexes.map((index, at) => [index, Math.round((first + at * pitch) * 1e6) / 1e6]));
  return applyCentres(
    plan,
    centres.map((centre, index) => moved.get(index) ?? centre),
  );
}

/** Takes vises away; one always stays. */
export function applyFewerVises(plan: Plan, scene: Scene, removed: ReadonlySet<number>): Plan {
  const kept = scene.vises.centres.value.filter((_centre, index) => !removed.has(index));
  return kept.length === 0 ? plan : applyCentres(plan, kept);
}

/** Sets one more vise beside the last, as near as the bodies go. */
export function applyOneMoreVise(plan: Plan, scene: Scene): Plan {
  const centres = scene.vises.centres.value;
  const pitch = scene.vise.bodyLength + Math.max(0, scene.shop.rules.viseGap);
  return applyCentres(plan, [...centres, Math.max(...centres) + pitch]);
}
