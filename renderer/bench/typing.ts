import type { FeatureRef } from '../../shared/findings/finding';
import { parseLength } from '../../shared/units/parse-length';
import type { Documents } from '../state/documents';
import type { View } from '../state/view';
import type { BenchController } from './bench-controller';
import type { BenchStore } from './bench-store';
import { toScreen } from './camera';
import { getStepName } from './features';
import { PANES, type PaneName } from './panes';
import { getFeatureBounds } from './pick';

/** A value typed for a thing on the Bench, with the drag it may have begun in. */
export interface Typing {
  /** Opens the small field; a drag under way is put back, and what is typed takes its place. */
  begin(feature: FeatureRef, text: string): void;
  change(text: string): void;
  /** Takes what is typed; what cannot be read stays with a sentence. */
  commit(): void;
  cancel(): void;
}

export function createTyping(documents: Documents, view: View, store: BenchStore, controller: BenchController): Typing {
  const findPlace = (feature: FeatureRef): { pane: PaneName; at: { x: number; y: number } } | null => {
    const { arrangement, drag } = store.getState();
    if (drag !== null) return { pane: drag.pane, at: drag.pointer };
    const drawn = controller.getDrawn();
    if (arrangement === null || drawn?.setting == null) return null;
    for (const pane of PANES) {
      const bounds = getFeatureBounds(drawn.views[pane], drawn.setting.scene, feature);
      if (bounds === null) continue;
      const middle = { x: (bounds.left + bounds.right) / 2, y: bounds.top };
      return { pane, at: toScreen(arrangement.cameras[pane], middle) };
    }
    return null;
  };

  const getUnits = () => documents.store.getState().plan.units;

  return {
    begin(feature, text) {
      const place = findPlace(feature);
      controller.cancel();
      const mover = controller.getMover(feature);
      if (place === null || mover === null) return;
      store.setState({ typed: { ...place, mover, text, refusal: '' } });
    },
    change(text) {
      const { typed } = store.getState();
      if (typed !== null) store.setState({ typed: { ...typed, text, refusal: '' } });
    },
    commit() {
      const { typed } = store.getState();
      if (typed === null) return;
      const { mover, text } = typed;
      if (text.trim() === '') {
        store.setState({ typed: null });
        return;
      }
      const parsed = parseLength(text, getUnits(), { allowNegative: mover.least < 0 });
      if (!parsed.ok) {
        store.setState({ typed: { ...typed, refusal: parsed.refusal } });
        return;
      }
      store.setState({ typed: null });
      const { apply } = mover;
      if (apply === null) {
        view.setSectionX(parsed.mm);
        return;
      }
      documents.edit(getStepName(mover, parsed.mm, getUnits()), (plan) => apply(plan, parsed.mm));
      const moved = mover.getMoved?.(parsed.mm);
      if (moved !== undefined) view.select(moved);
      if (parsed.warning !== undefined) view.notify('done', parsed.warning);
    },
    cancel() {
      store.setState({ typed: null });
    },
  };
}
