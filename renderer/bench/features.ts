import type { Scene } from '../../shared/drawing/scene';
import type { FeatureRef } from '../../shared/findings/finding';
import { formatLength } from '../../shared/units/format';
import { getMover } from './gestures/get-mover';
import type { Mover, Setting } from './gestures/mover';
import { getPieceName } from './gestures/piece-name';
import { getTabId } from './gestures/tab-id';
import type { PaneName } from './panes';

/** One thing of the layout, as the list beside the canvas says it and the Tab key comes to it. */
export interface BenchFeature {
  readonly feature: FeatureRef;
  /** Where it is shown when it has the focus. */
  readonly pane: PaneName;
  readonly group: 'Bar' | 'Parts' | 'Tabs' | 'Vises' | 'Height' | 'View';
  readonly name: string;
  /** Its number and where that comes from, in words. */
  readonly says: string;
}

/** Everything on the Bench that can be taken hold of, in the order in which a person would read it. */
export function getFeatures(setting: Setting): BenchFeature[] {
  const { scene } = setting;
  const wanted: Omit<BenchFeature, 'says'>[] = [
    {
      feature: { kind: 'blank', id: scene.blank.templateId },
      pane: 'elevation',
      group: 'Bar',
      name: `Bar ${scene.section.name}`,
    },
    ...scene.parts.map(
      (piece): Omit<BenchFeature, 'says'> => ({
        feature: { kind: 'part', id: piece.placed.slotId },
        pane: 'elevation',
        group: 'Parts',
        name: getPieceName(scene, piece),
      }),
    ),
    ...getTabs(scene),
    ...scene.vises.centres.value.map(
      (_centre, index): Omit<BenchFeature, 'says'> => ({
        feature: { kind: 'vise', id: String(index) },
        pane: 'elevation',
        group: 'Vises',
        name: `Vise ${index + 1}`,
      }),
    ),
    { feature: { kind: 'cutter', id: scene.cutter?.id ?? '' }, pane: 'section', group: 'Height', name: 'Cut-off' },
    { feature: { kind: 'seat', id: scene.seat.choice.value.kind }, pane: 'section', group: 'Height', name: 'Seat' },
    { feature: { kind: 'field', id: 'sectionX' }, pane: 'elevation', group: 'View', name: 'Section A' },
  ];
  return wanted.map((one) => ({ ...one, says: getSays(setting, one.feature) }));
}

function getTabs(scene: Scene): Omit<BenchFeature, 'says'>[] {
  return scene.parts.flatMap((piece) =>
    (piece.rib?.tabs ?? []).map((_tab, index) => ({
      feature: { kind: 'tab' as const, id: getTabId(piece.placed.slotId, index) },
      pane: 'elevation' as const,
      group: 'Tabs' as const,
      name: `Tab ${index + 1} of ${getPieceName(scene, piece)}`,
    })),
  );
}

function getSays(setting: Setting, feature: FeatureRef): string {
  const mover = getMover(setting, feature);
  if (mover === null) return '';
  const { units } = setting.scene.plan;
  const place = `${formatLength(mover.value, units, { unit: true })} ${mover.measure}`;
  if (mover.apply === null) return place;
  return `${place}, ${mover.pinned ? 'pinned' : 'auto'}`;
}

/** How a step is named: "move vise 2 to 7.500 in". */
export function getStepName(mover: Mover, value: number, units: 'in' | 'mm'): string {
  return `move ${mover.name} to ${formatLength(value, units, { unit: true })}`;
}
