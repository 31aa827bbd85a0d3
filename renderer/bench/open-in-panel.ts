import type { Scene } from '../../shared/drawing/scene';
import type { FeatureRef } from '../../shared/findings/finding';
import type { App } from '../state/app';

/** Where the setup panel has the field of a thing: the section's id and the field's label. */
interface PanelField {
  readonly section: string;
  readonly label: string;
}

function getPanelField(feature: FeatureRef, scene: Scene): PanelField | null {
  switch (feature.kind) {
    case 'vise':
    case 'jaw':
      return { section: 'hold', label: `Vise ${Number(feature.id) + 1} centre` };
    case 'blank':
      return { section: 'hold', label: 'Bar from stop' };
    case 'bar':
      return { section: 'bar', label: 'Section' };
    case 'seat':
      return { section: 'hold', label: scene.seat.choice.value.kind === 'shelf' ? 'Shelf depth' : 'Seat' };
    case 'stack':
      return { section: 'hold', label: 'Grip wanted' };
    case 'cutter':
    case 'cut':
      return { section: 'release', label: 'Clearance' };
    case 'rib':
    case 'tab':
      return { section: 'release', label: 'Rib aimed at' };
    case 'part':
      return { section: 'parts', label: getPartName(feature.id, scene) };
    case 'table':
    case 'order':
    case 'field':
      return null;
    default:
      return feature.kind satisfies never;
  }
}

function getPartName(slotId: string, scene: Scene): string {
  return scene.parts.find((piece) => piece.placed.slotId === slotId)?.part.name ?? '';
}

/** A short window has room for one open section. */
const TALL_WINDOW = 900;

/** Unfolds the setup panel at a thing's section and puts the focus into its field. */
export function openInPanel(app: App, feature: FeatureRef, scene: Scene): void {
  const field = getPanelField(feature, scene);
  if (field === null) return;
  app.view.store.setState(({ setupOpen }) => ({
    leftOpen: true,
    setupOpen: [...(window.innerHeight < TALL_WINDOW ? [] : setupOpen), field.section],
  }));
  // The panel is there after it has been drawn.
  requestAnimationFrame(() => requestAnimationFrame(() => focusField(field.label)));
}

function focusField(label: string): void {
  const panel = document.querySelector('.side-panel.is-left');
  const labels = [...(panel?.querySelectorAll<HTMLElement>('label, .field-label, .part-name') ?? [])];
  const found = labels.find((element) => element.textContent?.trim() === label);
  const holder = found?.closest('.field, .part-card');
  const field = holder?.matches('button') ? holder : holder?.querySelector('input, button');
  if (!(field instanceof HTMLElement)) return;
  field.scrollIntoView({ block: 'nearest' });
  field.focus();
}
