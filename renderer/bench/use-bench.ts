import { createContext, useContext, useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import type { View } from '../../shared/drawing/marks';
import { useEvaluation, usePlan, useShop, useView } from '../state/hooks';
import { useResolvedTheme } from '../ui/use-resolved-theme';
import { type BenchSubject, buildBenchView, getBlankIndex, getSetting, getShownSectionX } from './bench-model';
import type { BenchSession } from './bench-session';
import type { BenchState } from './bench-store';
import type { Arrangement } from './compute-fit';
import type { Setting } from './gestures/mover';
import type { PaneName } from './panes';
import { createPens, getDpr, loadFaces, type Pens } from './pens';

export const BenchContext = createContext<BenchSession | null>(null);

export function useBenchSession(): BenchSession {
  const session = useContext(BenchContext);
  if (session === null) throw new Error('A part of the Bench was built outside it.');
  return session;
}

export function useBench<T>(select: (state: BenchState) => T): T {
  return useStore(useBenchSession().store, select);
}

/** The blank in view with its plan, evaluation and section. */
export function useSubject(): BenchSubject {
  const plan = usePlan();
  const shop = useShop();
  const evaluation = useEvaluation();
  const blankId = useBench((state) => state.blankId);
  const wantedX = useView((state) => state.sectionX);
  const sectionPass = useView((state) => state.sectionPass);
  return useMemo(() => {
    const blankIndex = getBlankIndex(evaluation, blankId);
    const sectionX = getShownSectionX({ plan, evaluation, shop, blankIndex }, wantedX);
    return { plan, evaluation, shop, blankIndex, sectionX, sectionPass };
  }, [plan, evaluation, shop, blankId, wantedX, sectionPass]);
}

export function useSetting(subject: BenchSubject): Setting | null {
  return useMemo(() => getSetting(subject), [subject]);
}

/** The four views at the scales they are looked at; panning builds none of them anew. */
export function useViews(subject: BenchSubject, arrangement: Arrangement, pxPerPaperMm: number) {
  const elevation = useBuiltView('elevation', subject, arrangement, pxPerPaperMm);
  const plan = useBuiltView('plan', subject, arrangement, pxPerPaperMm);
  const section = useBuiltView('section', subject, arrangement, pxPerPaperMm);
  const stack = useBuiltView('stack', subject, arrangement, pxPerPaperMm);
  return useMemo(() => ({ elevation, plan, section, stack }), [elevation, plan, section, stack]);
}

function useBuiltView(pane: PaneName, subject: BenchSubject, arrangement: Arrangement, pxPerPaperMm: number): View {
  const { pxPerMm } = arrangement.cameras[pane];
  const { look } = arrangement;
  return useMemo(
    () => buildBenchView(pane, subject, look, pxPerPaperMm / pxPerMm),
    [pane, subject, look, pxPerPaperMm, pxPerMm],
  );
}

/** Colours, hatches and sizes in force. Read anew when the theme, the text size or the screen changes. */
export function usePens(remPx: number): Pens {
  const theme = useResolvedTheme();
  const dpr = useDevicePixelRatio();
  const fonts = useFontsReady();
  return useMemo(() => {
    // The fonts are read from the page, not passed in: what is made depends on them all the same.
    void fonts;
    return createPens(theme, remPx, dpr);
  }, [theme, fonts, remPx, dpr]);
}

function useDevicePixelRatio(): number {
  const [dpr, setDpr] = useState(getDpr);
  useEffect(() => {
    const query = window.matchMedia(`(resolution: ${dpr}dppx)`);
    const update = (): void => setDpr(getDpr());
    query.addEventListener('change', update);
    return () => query.removeEventListener('change', update);
  }, [dpr]);
  return dpr;
}

function useFontsReady(): number {
  const [ready, setReady] = useState(0);
  useEffect(() => {
    void loadFaces().then(() => setReady((count) => count + 1));
  }, []);
  return ready;
}
