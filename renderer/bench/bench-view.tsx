import { useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { useApp } from '../state/hooks';
import type { Drawn } from './bench-controller';
import { BenchMenu } from './bench-menu';
import type { BenchSubject } from './bench-model';
import { BenchPane } from './bench-pane';
import { getBenchSession } from './bench-session';
import { type ArrangedFor, showEverything } from './bench-store';
import { BlankPicker } from './blank-picker';
import { type Arrangement, computeArrangement, isStale } from './compute-fit';
import { getFeatures } from './features';
import { getFindingAnchors } from './finding-anchors';
import type { Setting } from './gestures/mover';
import { isRoomEnough } from './panes';
import { getPxPerPaperMm, type Pens, readRemPx, readRoom } from './pens';
import { StockStrip } from './stock-strip';
import { BenchContext, useBench, useBenchSession, usePens, useSetting, useSubject, useViews } from './use-bench';
import { useBenchActions } from './use-bench-actions';
import { SectionPlace, ZoomButtons } from './view-tools';

/** The canvas: elevation, plan, end section and height stack of one blank in its vises. */
export function BenchView() {
  const app = useApp();
  return (
    <BenchContext value={getBenchSession(app)}>
      <div className="bench-board">
        <StockStrip />
        <BenchRoom />
      </div>
    </BenchContext>
  );
}

function BenchRoom() {
  const room = useRef<HTMLElement>(null);
  const { store } = useBenchSession();
  const size = useBench((state) => state.room);
  const remPx = useBench((state) => state.remPx);
  const subject = useSubject();
  const setting = useSetting(subject);
  const pens = usePens(remPx);

  useLayoutEffect(() => {
    const element = room.current;
    if (element === null) return;
    const measure = (): void => {
      const { room: before, remPx: remBefore } = store.getState();
      const next = readRoom(element);
      const rem = readRemPx();
      if (before?.width === next.width && before.height === next.height && rem === remBefore) return;
      store.setState({ room: next, remPx: rem });
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [store]);

  const arrangement = useArrangement(subject, setting);
  return (
    <section ref={room} aria-label="Bench" className="bench">
      {setting === null && <EmptyBench subject={subject} />}
      {setting !== null && size !== null && arrangement !== null && (
        <BenchPanes subject={subject} setting={setting} arrangement={arrangement} pens={pens} />
      )}
    </section>
  );
}

/** Where the views lie: worked out anew when the room, the blank or the page's text changes, and when it is asked for. */
function useArrangement(subject: BenchSubject, setting: Setting | null): Arrangement | null {
  const { store } = useBenchSession();
  const room = useBench((state) => state.room);
  const remPx = useBench((state) => state.remPx);
  const fits = useBench((state) => state.fits);
  const arrangement = useBench((state) => state.arrangement);
  const templateId = setting?.scene.blank.templateId ?? null;
  const latest = useRef(subject);
  latest.current = subject;
  useLayoutEffect(() => {
    if (templateId === null || room === null || !isRoomEnough(room)) return;
    const wanted: ArrangedFor = { room, remPx, fits, templateId };
    const { arrangedFor } = store.getState();
    if (arrangedFor !== null && isSameArranging(arrangedFor, wanted)) return;
    const next = computeArrangement(latest.current, room, remPx, getPxPerPaperMm(remPx));
    store.setState({ arrangement: next, arrangedFor: wanted });
  }, [templateId, room, remPx, fits, store]);
  return arrangement;
}

/** True when nothing that the views are arranged by has changed; a room that is measured the same stays the same object. */
function isSameArranging(one: ArrangedFor, other: ArrangedFor): boolean {
  return (
    one.room === other.room &&
    one.remPx === other.remPx &&
    one.fits === other.fits &&
    one.templateId === other.templateId
  );
}

/** Fits the views again when the plan has outgrown them, once for each evaluation and never under the user's hand. */
function useFollowing(subject: BenchSubject, arrangement: Arrangement, views: Drawn['views']): void {
  const { store } = useBenchSession();
  const isHeld = useBench((state) => state.drag !== null);
  const fitted = useRef<unknown>(null);
  useEffect(() => {
    if (isHeld || !store.getState().follows || fitted.current === subject.evaluation) return;
    fitted.current = subject.evaluation;
    if (isStale(arrangement, views)) showEverything(store);
  }, [subject, arrangement, views, isHeld, store]);
}

interface PanesProps {
  readonly subject: BenchSubject;
  readonly setting: Setting;
  readonly arrangement: Arrangement;
  readonly pens: Pens;
}

function BenchPanes({ subject, setting, arrangement, pens }: PanesProps) {
  const { controller } = useBenchSession();
  const remPx = useBench((state) => state.remPx);
  const views = useViews(subject, arrangement, pens.pxPerPaperMm);
  controller.setDrawn({ setting, views });
  // Nobody reads the list or the findings while a thing is in the hand; they follow when it is let go.
  const rested = useHeld(useMemo(() => ({ subject, setting, views }), [subject, setting, views]));
  const features = useMemo(() => getFeatures(rested.setting), [rested]);
  const anchors = useMemo(
    () => getFindingAnchors(rested.subject.evaluation.findings, rested.views, rested.setting),
    [rested],
  );
  useBenchActions();
  useKeysHeld();

  useFollowing(subject, arrangement, views);

  const shared = { setting, features, anchors, pens, remPx };
  const { panes, cameras } = arrangement;
  return (
    <>
      <BenchPane {...shared} pane="elevation" {...getLook('elevation')}>
        <BlankPicker evaluation={rested.subject.evaluation} blankIndex={rested.subject.blankIndex} />
        <ZoomButtons />
      </BenchPane>
      <BenchPane {...shared} pane="plan" {...getLook('plan')} />
      <BenchPane {...shared} pane="section" {...getLook('section')}>
        <SectionPlace sectionX={subject.sectionX} units={subject.plan.units} />
      </BenchPane>
      <BenchPane {...shared} pane="stack" {...getLook('stack')} />
      <BenchMenu panes={panes} features={features} />
      <Said />
    </>
  );

  function getLook(pane: keyof typeof views) {
    return {
      view: views[pane],
      restedView: rested.views[pane],
      restedSetting: rested.setting,
      rect: panes[pane],
      camera: cameras[pane],
    };
  }
}

/** The value as it was when a drag began, for as long as it lasts. */
function useHeld<T>(value: T): T {
  const isHeld = useBench((state) => state.drag !== null);
  const rested = useRef(value);
  if (!isHeld) rested.current = value;
  return rested.current;
}

/** Space moves the paper, Escape lets go, wherever the focus is. */
function useKeysHeld(): void {
  const { controller, store, typing } = useBenchSession();
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const { drag } = store.getState();
      if (event.key === ' ' && isBenchItself(event.target)) {
        event.preventDefault();
        controller.holdSpace(true);
      }
      if (drag === null) return;
      if (event.key === 'Escape') {
        event.preventDefault();
        event.stopPropagation();
        controller.cancel();
      } else if (/^[\d.-]$/.test(event.key) && !event.ctrlKey && !event.metaKey && !event.altKey) {
        const [feature] = drag.mover.features;
        if (feature === undefined) return;
        event.preventDefault();
        event.stopPropagation();
        typing.begin(feature, event.key);
      }
    };
    const release = (event: KeyboardEvent): void => {
      if (event.key === ' ') controller.holdSpace(false);
    };
    window.addEventListener('keydown', press, true);
    window.addEventListener('keyup', release);
    return () => {
      window.removeEventListener('keydown', press, true);
      window.removeEventListener('keyup', release);
    };
  }, [controller, store, typing]);
}

/** True where no button or field wants the space bar for itself. */
function isBenchItself(target: EventTarget | null): boolean {
  return target === document.body || (target instanceof Element && target.matches('.bench-feature'));
}

/** Says what the keys did, for those who do not see it move. */
function Said() {
  const said = useBench((state) => state.said);
  return (
    <p className="visually-hidden" role="status">
      {said}
    </p>
  );
}

/** Why there is nothing to draw, in the words of the findings. */
function EmptyBench({ subject }: { subject: BenchSubject }) {
  const stops = subject.evaluation.findings.filter((finding) => finding.severity === 'stop');
  return (
    <div className="bench-empty">
      <p className="bench-empty-title">Nothing to draw yet</p>
      {stops.length === 0 ? (
        <p>The plan needs a part, a bar that fits it and a vise that holds it.</p>
      ) : (
        stops.slice(0, 3).map((finding) => <p key={finding.key}>{finding.sentence}</p>)
      )}
    </div>
  );
}
