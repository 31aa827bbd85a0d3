import { createStore } from 'zustand/vanilla';
import type { JournalEntry, ReadKind } from '../../shared/contract/host';
import type { TableText } from '../../shared/lists/table';
import type { Shop } from '../../shared/model/shop';
import type { OutlineDrawing } from '../../shared/outline/outline-drawing';
import type { ReadStore } from './read-store';

/** A question the page puts to the user, with the kind of answer it wants. */
export interface Questions {
  /** The plan has changes that are not on file. */
  unsaved: { ask: { planName: string; about: string }; answer: 'save' | 'discard' | 'cancel' };
  /** The file on disk is not the one that was read, or someone else has it open; the sentence says which, who and since when. */
  fileChanged: {
    ask: { fileName: string; reason: 'changed' | 'inUse'; sentence: string };
    answer: 'overwrite' | 'saveAs' | 'cancel';
  };
  /** The plan is of a newer program, and what is saved of it lacks what this one does not know. */
  newerPlan: { ask: { fileName: string }; answer: 'saveAs' | 'cancel' };
  /** Another window has saved another shop library. */
  shopChanged: { ask: Record<string, never>; answer: 'take' | 'keepBoth' | 'later' };
  fileExists: { ask: { fileName: string }; answer: 'replace' | 'cancel' };
  openFile: { ask: { show: 'plan' | ReadKind }; answer: string | null };
  saveFile: { ask: { suggestedName: string; what: string }; answer: { folder: string; name: string } | null };
  restore: { ask: { entries: readonly JournalEntry[] }; answer: { restore: number } | 'discard' | 'later' };
  acceptFinding: { ask: { sentence: string }; answer: string | null };
  /** A drawing was read: which part is it, and how does it lie? */
  readOutline: { ask: { name: string; drawing: OutlineDrawing }; answer: null };
  /** A list was read: what does each column hold? */
  readList: { ask: { list: ListKind; name: string; token: string; table: TableText }; answer: null };
  /** Another shop was read: what of it is taken? */
  mergeShop: { ask: { name: string; shop: Shop; remarks: readonly string[] }; answer: null };
  /** Windows that only show something. */
  about: { ask: Record<string, never>; answer: null };
  commands: { ask: Record<string, never>; answer: null };
  workings: { ask: Record<string, never>; answer: null };
  /** The plan beside a variant of it; `beside` is the id of the variant, '' for the one that comes first. */
  compare: { ask: { beside: string }; answer: null };
  /** Which view is saved by itself, and as what? */
  saveView: { ask: Record<string, never>; answer: null };
}

/** Lists that can be read. */
export type ListKind = 'parts' | 'rack';

export type QuestionKind = keyof Questions;

export type OpenQuestion = {
  [K in QuestionKind]: {
    readonly kind: K;
    readonly ask: Questions[K]['ask'];
    readonly answer: (answer: Questions[K]['answer']) => void;
  };
}[QuestionKind];

export interface Dialogs {
  readonly store: ReadStore<{ readonly open: OpenQuestion | null }>;
  ask<K extends QuestionKind>(kind: K, ask: Questions[K]['ask']): Promise<Questions[K]['answer']>;
}

const DISMISSED: { [K in QuestionKind]: Questions[K]['answer'] } = {
  unsaved: 'cancel',
  fileChanged: 'cancel',
  newerPlan: 'cancel',
  shopChanged: 'later',
  fileExists: 'cancel',
  openFile: null,
  saveFile: null,
  restore: 'later',
  acceptFinding: null,
  readOutline: null,
  readList: null,
  mergeShop: null,
  about: null,
  commands: null,
  workings: null,
  compare: null,
  saveView: null,
};

/** One question at a time: a new one answers the old with what closing it means. */
export function createDialogs(): Dialogs {
  const store = createStore<{ readonly open: OpenQuestion | null }>(() => ({ open: null }));
  return {
    store,
    ask<K extends QuestionKind>(kind: K, ask: Questions[K]['ask']) {
      dismissQuestion(store.getState().open);
      return new Promise<Questions[K]['answer']>((resolve) => {
        const answer = (given: Questions[K]['answer']): void => {
          if (store.getState().open === question) store.setState({ open: null });
          resolve(given);
        };
        const question = { kind, ask, answer } as unknown as OpenQuestion;
        store.setState({ open: question });
      });
    },
  };
}

/** Windows that wait for no answer: whatever else is asked for may close them. */
const ONLY_SHOWN: ReadonlySet<QuestionKind> = new Set(['about', 'commands', 'workings', 'compare']);

/** True where keys may do what they always do: no question waits for an answer. */
export function mayAct(question: OpenQuestion | null): boolean {
  return question === null || ONLY_SHOWN.has(question.kind);
}

/** Answers as the Escape key does. */
export function dismissQuestion(question: OpenQuestion | null): void {
  if (question === null) return;
  (question.answer as (answer: unknown) => void)(DISMISSED[question.kind]);
}
