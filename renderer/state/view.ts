import { createStore, type StoreApi } from 'zustand/vanilla';
import type { FeatureRef } from '../../shared/findings/finding';

export const TABS = ['parts', 'bench', 'order', 'sheet', 'shop'] as const;
export type Tab = (typeof TABS)[number];

export type Theme = 'system' | 'light' | 'dark';

/** The cut-off at its end, or the end mill that goes deepest. */
export type SectionPass = 'cutOff' | 'endMill';

/** A message that passes: what was done, or a problem that was met. */
export interface Notice {
  readonly id: number;
  readonly tone: 'done' | 'problem';
  readonly sentence: string;
}

/** The half of the state that is not undone: what is looked at, not what is planned. */
export interface ViewState {
  readonly tab: Tab;
  readonly theme: Theme;
  /** Side panels of the Bench. */
  readonly leftOpen: boolean;
  readonly rightOpen: boolean;
  /** The side panel that is folded only because the window is narrow; the user wants it open. */
  readonly foldedForRoom: 'left' | 'right' | null;
  /** Sections of the setup panel that stand open. */
  readonly setupOpen: readonly string[];
  /** What is selected on the Bench and in the lists, the last one first. */
  readonly selection: readonly FeatureRef[];
  /** What a finding, a list row or the pointer points at. */
  readonly pointedAt: readonly FeatureRef[];
  /** X from the stop of the end section; null: at the governing part. */
  readonly sectionX: number | null;
  /** Which tool the end section shows at its work. */
  readonly sectionPass: SectionPass;
  readonly notices: readonly Notice[];
  /** Side of the printed 100 mm test square as measured, mm; null until somebody has. */
  readonly measuredSquare: number | null;
  /** The sheet carries the workings of every figure as well. */
  readonly workingsPrinted: boolean;
  /** True from when printing is asked for until the Sheet has sent its pages to the printer. */
  readonly printPending: boolean;
}

export interface View {
  readonly store: StoreApi<ViewState>;
  show(tab: Tab): void;
  select(features: readonly FeatureRef[]): void;
  pointAt(features: readonly FeatureRef[]): void;
  setSectionX(x: number | null): void;
  notify(tone: Notice['tone'], sentence: string): void;
  dismiss(id: number): void;
  nextTheme(): void;
  /** Shows the Sheet and prints it. */
  requestPrint(): void;
}

export interface KeptView {
  readonly theme: Theme;
  readonly leftOpen: boolean;
  readonly rightOpen: boolean;
}

const FIRST_VIEW: ViewState = {
  tab: 'bench',
  theme: 'system',
  leftOpen: true,
  rightOpen: true,
  foldedForRoom: null,
  setupOpen: ['parts'],
  selection: [],
  pointedAt: [],
  sectionX: null,
  sectionPass: 'cutOff',
  notices: [],
  measuredSquare: null,
  workingsPrinted: false,
  printPending: false,
};

const NEXT_THEME: Record<Theme, Theme> = { system: 'light', light: 'dark', dark: 'system' };

export function createView(kept: Partial<KeptView & Pick<ViewState, 'setupOpen'>> = {}): View {
  const store = createStore<ViewState>(() => ({ ...FIRST_VIEW, ...kept }));
  let lastNotice = 0;
  return {
    store,
    show: (tab) => store.setState({ tab }),
    select: (selection) => store.setState({ selection }),
    pointAt: (pointedAt) => store.setState({ pointedAt }),
    setSectionX: (sectionX) => store.setState({ sectionX }),
    notify(tone, sentence) {
      lastNotice += 1;
      const notice = { id: lastNotice, tone, sentence };
      // Said again, a sentence stands once, as the latest.
      store.setState(({ notices }) => ({
        notices: [...notices.filter((other) => other.sentence !== sentence).slice(-2), notice],
      }));
    },
    nextTheme: () => store.setState(({ theme }) => ({ theme: NEXT_THEME[theme] })),
    requestPrint: () => store.setState({ tab: 'sheet', printPending: true }),
    dismiss: (id) => store.setState((state) => ({ notices: state.notices.filter((notice) => notice.id !== id) })),
  };
}

/** True when two references name the same thing. */
export function isSameFeature(one: FeatureRef, other: FeatureRef): boolean {
  return one.kind === other.kind && one.id === other.id;
}
