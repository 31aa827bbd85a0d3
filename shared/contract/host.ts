import type { Evaluation } from '../evaluate';
import type { TableText } from '../lists/table';
import type { Plan } from '../model/plan';
import type { Shop } from '../model/shop';
import type { OutlineDrawing } from '../outline/outline-drawing';

/** An expected problem, as data: stable code, a sentence for a person, and the field or file it is about. */
export interface Problem {
  code: string;
  sentence: string;
  where: string;
}

export type Reply<T> = { ok: true; value: T } | { ok: false; problem: Problem };

/** A file the host holds for the page. The page never sees a path it may write to; it holds this token. */
export interface FileHandle {
  token: string;
  /** Shown to the user: file name and folder. */
  name: string;
  folder: string;
  /** Content stamp when last read or written, to notice a change on disk. */
  stamp: string;
  readOnly: boolean;
  /** A newer program wrote it: it is read only, and what is saved from it elsewhere lacks what this one does not know. */
  fromNewer: boolean;
}

export interface OpenedPlan {
  plan: Plan;
  file: FileHandle | null;
  /** Sentences to show once, such as "opened from an older version". */
  remarks: string[];
}

export interface RecentFile {
  token: string;
  name: string;
  folder: string;
  /** ISO time of last opening, from the host's clock. */
  openedAt: string;
}

/** Work that a session kept in its journal and ended without saving. */
export interface JournalEntry {
  /** What `restoreLeft` and `discardLeft` take. */
  id: string;
  plan: Plan;
  /** Name of its file; '' for a plan that was never saved. */
  fileName: string;
  savedAt: string;
  /** What differs from the file as it is now, or what is in it where there is no such file; a phrase each, few. */
  differs: string[];
}

/** A sample plan that comes with the program. */
export interface SampleInfo {
  /** What `openSample` takes. */
  id: string;
  title: string;
  /** One sentence on what it shows. */
  about: string;
}

/** One line of a folder, for hosts without dialogs of their own. */
export interface FolderEntry {
  name: string;
  kind: 'folder' | 'plan' | 'file';
  /** For a folder: what `browse` takes. For a plan: what `openPlan` takes. For another file: what the call that reads it takes. */
  token: string;
}

/** Files other than plans that can be read. */
export type ReadKind = 'drawing' | 'list' | 'shop';

export interface FolderListing {
  /** Token of this folder, as `browse` and `SaveTarget` take it. */
  folder: string;
  /** The folder as the user knows it, such as "/home/me/plans". */
  shown: string;
  /** Token of the folder above, or null at the top of what the host lets the page see. */
  parent: string | null;
  /** Folders first, then plans, each by name. Hidden files are left out. */
  entries: FolderEntry[];
}

/**
 * Where to write. Null lets the host ask with its own dialog; a host without dialogs
 * (`nativeDialogs: false`) refuses null, and the page asks with `browse` first.
 */
export interface SaveTarget {
  /** Token from `browse`. */
  folder: string;
  /** File name; the host adds the usual ending when it is missing. */
  name: string;
  /** False: an existing file is refused with the problem code `file-exists`, and the page asks. */
  replace: boolean;
}

export interface StartInfo {
  hostKind: 'electron' | 'local';
  /** True when the host shows its own open and save dialogs. */
  nativeDialogs: boolean;
  samples: SampleInfo[];
  version: string;
  shop: Shop;
  shopRemarks: string[];
  opened: OpenedPlan;
  /** What the opened plan comes to in the shop; null where the host could not say. */
  evaluation: Evaluation | null;
  recents: RecentFile[];
  /** Work of a session that ended without saving. */
  unsaved: JournalEntry[];
  /** Today's ISO date and user name from the host, for new plans and stamps. */
  today: string;
  userName: string;
  locale: string;
}

/** One view of a plan, to be drawn by itself. */
export interface ViewChoice {
  view: 'elevation' | 'section' | 'plan' | 'stack' | 'shelf' | 'part';
  /** Which part, for `part`; '' otherwise. */
  partId: string;
  /** Place of the blank in the evaluation; null for the one that grips least. */
  blankIndex: number | null;
  /** X of the end section from the stop, mm; null where the sheet has it. */
  sectionX: number | null;
  /** Which tool the end section shows at its work. */
  sectionPass: 'cutOff' | 'endMill';
}

/** Every call the page may make of its host, with what it sends and what comes back. Both hosts, the preload and the page derive from this. */
export interface HostCalls {
  start: { request: Record<string, never>; reply: StartInfo };
  /** Token of a recent file or a folder entry; null asks with the host's own dialog, and a null reply means that the user thought better of it. */
  openPlan: { request: { token: string | null }; reply: OpenedPlan | null };
  /** Lists a folder; null for the one last used, or the user's home. */
  browse: { request: { folder: string | null }; reply: FolderListing };
  /** The same for other files: drawings, lists or shop libraries. */
  browseFiles: { request: { folder: string | null; show: ReadKind }; reply: FolderListing };
  openSample: { request: { sample: string }; reply: OpenedPlan };
  /** The plan on the page is no longer that of the file last opened or saved: a new one was begun, or lost work restored. */
  leavePlan: { request: Record<string, never>; reply: Record<string, never> };
  /**
   * Problem code `file-changed` when the file on disk is not the one last read, `file-in-use` when someone else has it
   * open, unless `overwriteChanged`; `file-newer` in any case when a newer program wrote it.
   */
  savePlan: { request: { plan: Plan; file: FileHandle; overwriteChanged: boolean }; reply: FileHandle };
  savePlanAs: { request: { plan: Plan; suggestedName: string; target: SaveTarget | null }; reply: FileHandle | null };
  /** Problem code `file-changed` when another window has saved another shop meanwhile; `loadShop` then takes that up. */
  saveShop: { request: { shop: Shop }; reply: { stamp: string } };
  /** Reads the user's own shop library anew. */
  loadShop: { request: Record<string, never>; reply: { shop: Shop; remarks: string[] } };
  exportSheet: {
    request: {
      plan: Plan;
      shop: Shop;
      format: 'pdf' | 'svg' | 'dxf';
      /** Side of the printed 100 mm test square as measured, mm; null until somebody has. */
      measuredSquare: number | null;
      /** Pages with the workings of every figure as well. */
      workings: boolean;
      /** Name of the plan's file, for the foot of each page; '' when it has none. */
      fileName: string;
      suggestedName: string;
      target: SaveTarget | null;
    };
    reply: { name: string; folder: string } | null;
  };
  /** The sheet as bytes (base64), for the preview and for printing from the page. */
  renderSheet: {
    request: {
      plan: Plan;
      shop: Shop;
      measuredSquare: number | null;
      workings: boolean;
      fileName: string;
    };
    reply: { pdfBase64: string; pages: number };
  };
  /** One view by itself, in true size. Problem code `no-view` when the plan has none of that kind. */
  exportView: {
    request: {
      plan: Plan;
      shop: Shop;
      choice: ViewChoice;
      format: 'svg' | 'dxf';
      suggestedName: string;
      target: SaveTarget | null;
    };
    reply: { name: string; folder: string } | null;
  };
  /** A picture that the page has drawn, as PNG (base64). Problem code `not-a-picture` when it is none. */
  exportPicture: {
    request: { pngBase64: string; suggestedName: string; target: SaveTarget | null };
    reply: { name: string; folder: string } | null;
  };
  /** Every cut of the order as CSV. Problem code `no-order` when nothing can be ordered. */
  exportCutList: {
    request: { plan: Plan; shop: Shop; suggestedName: string; target: SaveTarget | null };
    reply: { name: string; folder: string } | null;
  };
  /** Reads a DXF or SVG drawing; token and null as for `openPlan`. */
  readOutline: { request: { token: string | null }; reply: { name: string; drawing: OutlineDrawing } | null };
  /** Reads the cells of a CSV list. The token in the reply reads the file again with another delimiter; null finds it out. */
  readTable: {
    request: { token: string | null; delimiter: string | null };
    reply: { name: string; token: string; table: TableText } | null;
  };
  /** Writes rows as a CSV list that no spreadsheet takes for formulas. */
  exportTable: {
    request: { rows: string[][]; delimiter: ',' | ';' | '\t'; suggestedName: string; target: SaveTarget | null };
    reply: { name: string; folder: string } | null;
  };
  /** Reads another shop library, to be merged into the user's own. */
  readShop: { request: { token: string | null }; reply: { name: string; shop: Shop; remarks: string[] } | null };
  exportShop: {
    request: { shop: Shop; suggestedName: string; target: SaveTarget | null };
    reply: { name: string; folder: string } | null;
  };
  /**
   * Keeps work that is not on file; the file is the one that the plan came from, with the stamp it had then, and the
   * shop is null where it is on file as it is.
   */
  writeJournal: { request: { plan: Plan; file: FileHandle | null; shop: Shop | null }; reply: Record<string, never> };
  /** Drops what this session has kept, as after a save. */
  discardJournal: { request: Record<string, never>; reply: Record<string, never> };
  /**
   * Gives back an entry of `unsaved` with its file, which is still held to what it was when the work began: saving
   * asks first when it has changed since. The entry stays until it is dropped.
   */
  restoreLeft: { request: { id: string }; reply: OpenedPlan & { shop: Shop | null } };
  /** Drops entries of `unsaved`, once they are restored and kept anew, or given up. */
  discardLeft: { request: { ids: string[] }; reply: Record<string, never> };
  recents: { request: Record<string, never>; reply: RecentFile[] };
  setTitle: { request: { title: string; unsaved: boolean }; reply: Record<string, never> };
}

export type HostVerb = keyof HostCalls;

/** What the page holds: one function, typed by the contract. */
export interface Host {
  call<V extends HostVerb>(verb: V, request: HostCalls[V]['request']): Promise<Reply<HostCalls[V]['reply']>>;
}
