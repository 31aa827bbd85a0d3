import type { BlankResult } from '../../../shared/engine/results';
import { isPinned } from '../../../shared/model/choice';
import { nextId } from '../../../shared/model/next-id';
import type { BlankSlot, BlankTemplate, Plan } from '../../../shared/model/plan';

/** The layout as the user has it, or as the engine laid it out, ready to be changed and pinned. */
export function getTemplates(plan: Plan, blanks: readonly BlankResult[]): BlankTemplate[] {
  if (isPinned(plan.layout)) return plan.layout.pinned;
  return blanks.map((blank) => ({
    id: blank.templateId,
    length: 'auto',
    // Where a part lies on several kinds of blank, only a fixed count keeps the shares as they were.
    count: isAlone(blank, blanks) ? 'auto' : { pinned: blank.count },
    slots: blank.parts.map(({ slotId, partId, x, mirrored }) => ({ id: slotId, partId, x, mirrored })),
  }));
}

function isAlone(blank: BlankResult, blanks: readonly BlankResult[]): boolean {
  const ids = new Set(blank.parts.map((placed) => placed.partId));
  return blanks.every((other) => other === blank || other.parts.every((placed) => !ids.has(placed.partId)));
}

/** Pins the layout with each slot changed; null takes a slot away, and a blank with none left goes too. */
export function applyToSlots(
  plan: Plan,
  blanks: readonly BlankResult[],
  change: (slot: BlankSlot) => BlankSlot | null,
): Plan {
  const templates = getTemplates(plan, blanks).flatMap((template) => {
    const slots = template.slots.flatMap((slot) => change(slot) ?? []);
    const isEmptied = slots.length === 0 && template.slots.length > 0;
    return isEmptied ? [] : [{ ...template, slots }];
  });
  return { ...plan, layout: { pinned: templates } };
}

/** Pins the layout with slots added to one blank; they get ids of their own. */
export function addSlots(
  plan: Plan,
  blanks: readonly BlankResult[],
  templateId: string,
  added: readonly Omit<BlankSlot, 'id'>[],
): { plan: Plan; ids: string[] } {
  const templates = getTemplates(plan, blanks);
  const taken = templates.flatMap((template) => template.slots);
  const slots: BlankSlot[] = [];
  for (const slot of added) slots.push({ ...slot, id: nextId([...taken, ...slots], 'slot') });
  const next = templates.map((template) =>
    template.id === templateId ? { ...template, slots: [...template.slots, ...slots] } : template,
  );
  return { plan: { ...plan, layout: { pinned: next } }, ids: slots.map((slot) => slot.id) };
}
