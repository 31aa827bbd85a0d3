import type { FeatureRef } from '../../shared/findings/finding';
import type { Plan } from '../../shared/model/plan';
import type { App } from '../state/app';
import type { BenchSession } from './bench-session';
import { zoomToBounds } from './cameras';
import { applyBarAt, applyBarOverVises, applyPartsAt, applyVisesUnderBar, type BarPlace } from './gestures/align-edits';
import type { Setting } from './gestures/mover';
import {
  applyEvenSpacing,
  applyMirror,
  applyOtherHand,
  applyPaste,
  applyRemoval,
  applyTightSpacing,
  type CopiedPart,
  getCopy,
} from './gestures/part-edits';
import { applyEvenVises, applyFewerVises, applyOneMoreVise } from './gestures/vise-edits';
import { getViseIndex } from './gestures/vise-mover';
import { openInPanel } from './open-in-panel';
import { PANES } from './panes';
import { getFeatureBounds } from './pick';

/** What an action of the Bench works on: what is selected, as drawn now. */
export interface BenchActionContext {
  readonly app: App;
  readonly session: BenchSession;
  readonly setting: Setting;
  readonly selection: readonly FeatureRef[];
  /** The one that was selected last. */
  readonly first: FeatureRef | null;
}

/** Something that can be done to what is selected: in the context menu, by its key, and in the list of commands. */
export interface BenchAction {
  readonly id: string;
  readonly label: (context: BenchActionContext) => string;
  /** Key while the Bench has the focus, as it is printed: `Delete`, `Mod+D`. */
  readonly key: string;
  /** True where it needs nothing selected: its key works wherever the focus is, text fields apart. */
  readonly isForAll?: boolean;
  /** Where it makes no sense it is not offered. */
  readonly isOffered: (context: BenchActionContext) => boolean;
  readonly perform: (context: BenchActionContext) => void;
}

let copied: readonly CopiedPart[] = [];

const PIECES = (count: number): string => (count > 1 ? `${count} parts` : 'part');

const PLACES: readonly { readonly id: BarPlace; readonly label: string }[] = [
  { id: 'leftEnd', label: 'Align with the left end of the bar' },
  { id: 'middle', label: 'Centre on the bar' },
  { id: 'rightEnd', label: 'Align with the right end of the bar' },
];

/** Parts along their bar; several keep their distances. */
function getPlaceActions(): BenchAction[] {
  return PLACES.map(({ id, label }) => ({
    id: `bench.${id}`,
    label: () => label,
    key: '',
    isOffered: ({ selection }) => getSlots(selection).size > 0,
    perform: (context) => {
      const slots = getSlots(context.selection);
      const step = `${label.charAt(0).toLowerCase()}${label.slice(1)}`;
      edit(context, step, (plan) => applyPartsAt(plan, context.setting.scene, slots, id));
    },
  }));
}

export const BENCH_ACTIONS: readonly BenchAction[] = [
  {
    id: 'bench.pin',
    label: () => 'Pin where it is',
    key: 'P',
    isOffered: (context) => {
      const mover = getFirstMover(context);
      return mover?.apply != null && !mover.pinned;
    },
    perform: (context) => {
      const mover = getFirstMover(context);
      const apply = mover?.apply;
      if (mover !== null && apply != null) edit(context, `pin ${mover.name}`, (plan) => apply(plan, mover.value));
    },
  },
  {
    id: 'bench.auto',
    label: () => 'Leave to auto',
    key: 'A',
    isOffered: (context) => {
      const mover = getFirstMover(context);
      return mover?.release != null && mover.pinned;
    },
    perform: (context) => {
      const mover = getFirstMover(context);
      if (mover?.release != null) edit(context, `leave ${mover.name} to auto`, mover.release);
    },
  },
  {
    id: 'bench.type',
    label: () => 'Type its place…',
    key: '0–9',
    isOffered: (context) => getFirstMover(context) !== null,
    perform: ({ session, first }) => {
      if (first !== null) session.typing.begin(first, '');
    },
  },
  {
    id: 'bench.mirror',
    label: ({ selection }) => `Turn the ${PIECES(getSlots(selection).size)} end for end`,
    key: 'M',
    isOffered: ({ selection }) => getSlots(selection).size > 0,
    perform: (context) => {
      const slots = getSlots(context.selection);
      edit(context, `turn ${PIECES(slots.size)} end for end`, (plan) =>
        applyMirror(plan, context.setting.scene, slots),
      );
    },
  },
  {
    id: 'bench.copy',
    label: ({ selection }) => `Copy the ${PIECES(getSlots(selection).size)}`,
    key: 'Mod+C',
    isOffered: ({ selection }) => getSlots(selection).size > 0,
    perform: ({ setting, selection }) => {
      copied = getCopy(setting.scene, getSlots(selection));
    },
  },
  {
    id: 'bench.paste',
    label: () => `Paste ${PIECES(copied.length)} on this bar`,
    key: 'Mod+V',
    isOffered: ({ setting }) => copied.some(({ partId }) => setting.scene.plan.parts.some(({ id }) => id === partId)),
    perform: (context) => paste(context, copied, (count) => `paste ${PIECES(count)}`),
  },
  {
    id: 'bench.duplicate',
    label: ({ selection }) => `Add another like the ${PIECES(getSlots(selection).size)}`,
    key: 'Mod+D',
    isOffered: ({ selection }) => getSlots(selection).size > 0,
    perform: (context) =>
      paste(
        context,
        getCopy(context.setting.scene, getSlots(context.selection)),
        (count) => `duplicate ${PIECES(count)}`,
      ),
  },
  {
    id: 'bench.otherHand',
    label: () => 'Add its other hand to the bar',
    key: '',
    isOffered: ({ selection }) => getSlots(selection).size === 1,
    perform: (context) => {
      const [slot] = getSlots(context.selection);
      const step = 'add the other hand';
      if (slot !== undefined)
        place(
          context,
          (plan) => applyOtherHand(plan, context.setting.scene, slot),
          () => step,
        );
    },
  },
  {
    id: 'bench.selectAlike',
    label: ({ first }) => (first?.kind === 'vise' ? 'Select all vises' : 'Select all parts on the bar'),
    key: 'Mod+A',
    isForAll: true,
    isOffered: () => true,
    perform: ({ app, session, setting: { scene }, first }) => {
      const alike: FeatureRef[] =
        first?.kind === 'vise'
          ? scene.vises.centres.value.map((_centre, index) => ({ kind: 'vise', id: String(index) }))
          : scene.parts.map(({ placed }) => ({ kind: 'part', id: placed.slotId }));
      session.store.setState({ gathered: alike, said: `${alike.length} selected` });
      app.view.select(alike);
    },
  },
  ...getPlaceActions(),
  {
    id: 'bench.tight',
    label: () => 'Set them tight, room for the cutter between',
    key: '',
    isOffered: ({ selection }) => getSlots(selection).size > 1,
    perform: (context) =>
      edit(context, 'set parts tight', (plan) =>
        applyTightSpacing(plan, context.setting.scene, getSlots(context.selection)),
      ),
  },
  {
    id: 'bench.even',
    label: () => 'Leave equal gaps between them',
    key: '',
    isOffered: ({ selection }) => getSlots(selection).size > 2,
    perform: (context) =>
      edit(context, 'space parts evenly', (plan) =>
        applyEvenSpacing(plan, context.setting.scene, getSlots(context.selection)),
      ),
  },
  {
    id: 'bench.evenVises',
    label: () => 'Set the vises at equal distances',
    key: '',
    isOffered: ({ first, setting }) => first?.kind === 'vise' && setting.scene.vises.centres.value.length > 2,
    perform: (context) =>
      edit(context, 'space vises evenly', (plan) =>
        applyEvenVises(plan, context.setting.scene, getVises(context.selection)),
      ),
  },
  {
    id: 'bench.visesUnderBar',
    label: ({ selection }) => `Centre the ${getVises(selection).size > 1 ? 'vises' : 'vise'} under the bar`,
    key: '',
    isOffered: ({ selection }) => getVises(selection).size > 0,
    perform: (context) =>
      edit(context, 'centre vises under the bar', (plan) =>
        applyVisesUnderBar(plan, context.setting.scene, getVises(context.selection)),
      ),
  },
  {
    id: 'bench.barOverVises',
    label: () => 'Centre the bar over the vises',
    key: '',
    isOffered: ({ first }) => first?.kind === 'blank',
    perform: (context) =>
      edit(context, 'centre the bar over the vises', (plan) => applyBarOverVises(plan, context.setting.scene)),
  },
  {
    id: 'bench.barAtStop',
    label: () => 'Push the bar against the stop',
    key: '',
    isOffered: ({ first }) => first?.kind === 'blank',
    perform: (context) => edit(context, 'push the bar against the stop', (plan) => applyBarAt(plan, 0)),
  },
  {
    id: 'bench.moreVises',
    label: () => 'Set one more vise',
    key: '',
    isOffered: ({ first }) => first === null || first.kind === 'vise',
    perform: (context) => edit(context, 'set one more vise', (plan) => applyOneMoreVise(plan, context.setting.scene)),
  },
  {
    id: 'bench.remove',
    label: ({ selection, first }) =>
      first?.kind === 'vise' ? 'Take the vise away' : `Take the ${PIECES(getSlots(selection).size)} off this bar`,
    key: 'Delete',
    isOffered: ({ selection, first, setting }) =>
      getSlots(selection).size > 0 || (first?.kind === 'vise' && setting.scene.vises.centres.value.length > 1),
    perform: (context) => remove(context),
  },
  {
    id: 'bench.wayUp',
    label: ({ setting }) =>
      setting.scene.section.wayUp.value === 'onEdge' ? 'Lay the bar flat' : 'Stand the bar on edge',
    key: '',
    isOffered: ({ first }) => first?.kind === 'blank',
    perform: (context) => {
      const wayUp = context.setting.scene.section.wayUp.value === 'onEdge' ? 'flat' : 'onEdge';
      edit(context, wayUp === 'flat' ? 'lay the bar flat' : 'stand the bar on edge', (plan) => ({
        ...plan,
        stock: { ...plan.stock, wayUp: { pinned: wayUp } },
      }));
    },
  },
  {
    id: 'bench.sectionHere',
    label: () => 'Take section A through its middle',
    key: 'S',
    isOffered: ({ first }) => first !== null && ['part', 'vise', 'tab'].includes(first.kind),
    perform: ({ app, session, first }) => {
      const bounds = first === null ? null : getBounds(session, first, 'elevation');
      if (bounds !== null) app.view.setSectionX((bounds.left + bounds.right) / 2);
    },
  },
  {
    id: 'bench.zoomTo',
    label: () => 'Zoom to it',
    key: 'Z',
    isOffered: ({ first }) => first !== null,
    perform: ({ session, first }) => {
      const { arrangement } = session.store.getState();
      if (first === null || arrangement === null) return;
      for (const pane of PANES) {
        const bounds = getBounds(session, first, pane);
        if (bounds === null) continue;
        session.store.setState({ arrangement: zoomToBounds(arrangement, pane, bounds), follows: false });
        return;
      }
    },
  },
  {
    id: 'bench.panel',
    label: () => 'Show its field in the setup panel',
    key: 'Enter',
    isOffered: ({ first }) => first !== null && first.kind !== 'field',
    perform: ({ app, first, setting }) => {
      if (first !== null) openInPanel(app, first, setting.scene);
    },
  },
];

const MOST_ADDED = 8;

/** For the bar and for empty paper: one more piece of each part of the plan, set after the last. */
export function getAddActions({ setting }: BenchActionContext): BenchAction[] {
  return setting.scene.plan.parts.slice(0, MOST_ADDED).map((part) => ({
    id: `bench.add.${part.id}`,
    label: () => `Put a ${part.name === '' ? 'part' : part.name} on this bar`,
    key: '',
    isOffered: ({ first }) => first === null || first.kind === 'blank',
    perform: (context) =>
      paste(context, [{ partId: part.id, mirrored: false, offset: 0 }], () => `put ${part.name} on the bar`),
  }));
}

function getFirstMover({ session, first }: BenchActionContext) {
  return first === null ? null : session.controller.getMover(first);
}

function edit({ app }: BenchActionContext, step: string, change: (plan: Plan) => Plan): void {
  app.documents.edit(step, change);
}

export function getSlots(selection: readonly FeatureRef[]): Set<string> {
  return new Set(selection.filter((feature) => feature.kind === 'part').map((feature) => feature.id));
}

function getVises(selection: readonly FeatureRef[]): Set<number> {
  return new Set(selection.filter((feature) => feature.kind === 'vise').map((feature) => getViseIndex(feature.id)));
}

function paste(context: BenchActionContext, parts: readonly CopiedPart[], getStep: (count: number) => string): void {
  place(context, (plan) => applyPaste(plan, context.setting.scene, parts), getStep);
}

/** Puts pieces on the bar and selects them. */
function place(
  { app }: BenchActionContext,
  change: (plan: Plan) => { plan: Plan; ids: string[] },
  getStep: (count: number) => string,
): void {
  const placed = change(app.documents.store.getState().plan);
  if (placed.ids.length === 0) return;
  app.documents.edit(getStep(placed.ids.length), () => placed.plan);
  app.view.select(placed.ids.map((id) => ({ kind: 'part', id })));
}

function remove(context: BenchActionContext): void {
  const slots = getSlots(context.selection);
  const { scene } = context.setting;
  if (slots.size > 0) {
    const step = `take ${PIECES(slots.size)} off the bar`;
    edit(context, step, (plan) => applyRemoval(plan, scene, slots));
  } else {
    const vises = getVises(context.selection);
    edit(context, vises.size === 1 ? 'take a vise away' : `take ${vises.size} vises away`, (plan) =>
      applyFewerVises(plan, scene, vises),
    );
  }
  context.app.view.select([]);
}

function getBounds(session: BenchSession, feature: FeatureRef, pane: (typeof PANES)[number]) {
  const drawn = session.controller.getDrawn();
  return drawn?.setting == null ? null : getFeatureBounds(drawn.views[pane], drawn.setting.scene, feature);
}
