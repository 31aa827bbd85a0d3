import type { Point } from '../../shared/drawing/marks';
import type { Plan } from '../../shared/model/plan';
import type { Documents } from '../state/documents';
import type { Evaluator } from '../state/evaluator';
import type { View } from '../state/view';
import type { BenchStore } from './bench-store';
import { getStepName } from './features';
import { computeDrag } from './gestures/drag';
import type { Mover } from './gestures/mover';
import type { LiveEvaluator } from './live-evaluator';
import type { PaneName } from './panes';

export interface DragParts {
  readonly documents: Documents;
  readonly view: View;
  readonly evaluator: Evaluator;
  readonly live: LiveEvaluator;
  readonly store: BenchStore;
}

export interface DragStart {
  readonly pane: PaneName;
  readonly mover: Mover;
  /** Place on the mover's axis where it was taken hold of, mm. */
  readonly from: number;
  readonly pointer: Point;
}

export interface DragMove {
  readonly to: number;
  readonly pointer: Point;
  readonly pxPerMm: number;
  readonly suspended: boolean;
}

/** One thing dragged: drawn with the pointer at once, in the plan as soon as its figures are there, one step at the end. */
export interface PlanDrag {
  begin(start: DragStart): void;
  update(move: DragMove): void;
  /** Ends the drag. Until the last figures have come it is still seen where it was let go. */
  end(): void;
  /** Puts back what was there when it began. */
  cancel(): void;
  /** Does now what `end` left to the last figures. */
  settle(): void;
}

interface UnderWay {
  readonly mover: Mover;
  readonly from: number;
  readonly plan: Plan;
  readonly sectionX: number | null;
  /** True once the thing was let go. */
  isLetGo: boolean;
}

export function createPlanDrag({ documents, view, evaluator, live, store }: DragParts): PlanDrag {
  let underWay: UnderWay | null = null;

  const setShown = (value: number): void => {
    const { drag } = store.getState();
    if (drag !== null) store.setState({ drag: { ...drag, shownValue: value } });
  };

  const forget = (): void => {
    underWay = null;
    live.cancel();
    store.setState({ drag: null });
  };

  const getPlanAt = ({ mover, plan }: UnderWay, value: number): Plan =>
    mover.apply === null || value === mover.value ? plan : mover.apply(plan, value);

  const close = (): void => {
    const { drag } = store.getState();
    if (underWay === null || drag === null) return;
    const { mover } = underWay;
    if (mover.apply !== null) {
      const last = getPlanAt(underWay, drag.value);
      if (drag.shownValue !== drag.value) documents.updateGesture(() => last);
      const moved = mover.getMoved?.(drag.value) ?? null;
      if (moved !== null) view.select(moved);
      documents.endGesture(getStepName(mover, drag.value, documents.store.getState().plan.units));
    }
    forget();
  };

  const show = (current: UnderWay, value: number): void => {
    if (current.mover.apply === null) {
      view.setSectionX(value);
      setShown(value);
      return;
    }
    const { shop } = documents.store.getState();
    live.request(getPlanAt(current, value), shop, (plan, evaluation) => {
      if (underWay !== current || !documents.isGesturing()) return;
      evaluator.remember(plan, shop, evaluation);
      documents.updateGesture(() => plan);
      setShown(value);
      if (current.isLetGo && store.getState().drag?.value === value) close();
    });
  };

  return {
    begin({ pane, mover, from, pointer }) {
      const { plan } = documents.store.getState();
      underWay = { mover, from, plan, sectionX: view.store.getState().sectionX, isLetGo: false };
      if (mover.apply !== null) documents.beginGesture(`move ${mover.name}`);
      const { value } = mover;
      store.setState({
        hover: null,
        drag: { pane, mover, value, shownValue: value, line: null, anchorLabel: '', pointer },
      });
    },
    update({ to, pointer, pxPerMm, suspended }) {
      const { drag } = store.getState();
      if (underWay === null || drag === null || underWay.isLetGo) return;
      const { mover, from, plan } = underWay;
      const { value, line, anchorLabel } = computeDrag(mover, { from, to, units: plan.units, pxPerMm, suspended });
      store.setState({ drag: { ...drag, value, line, anchorLabel, pointer } });
      if (value !== drag.value) show(underWay, value);
    },
    end() {
      const { drag } = store.getState();
      if (underWay === null || drag === null) return;
      underWay.isLetGo = true;
      if (drag.shownValue === drag.value) close();
      else live.hurry();
    },
    cancel() {
      if (underWay === null) return;
      if (underWay.isLetGo) {
        close();
        return;
      }
      if (underWay.mover.apply === null) view.setSectionX(underWay.sectionX);
      else documents.cancelGesture();
      forget();
    },
    settle() {
      if (underWay?.isLetGo === true) close();
    },
  };
}
