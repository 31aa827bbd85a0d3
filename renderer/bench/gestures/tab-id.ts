/** A tab on the Bench is known by the slot of its part and its place in the row: "slot-3:1". */
export function getSlotOfTab(tabId: string): string {
  return tabId.slice(0, Math.max(0, tabId.lastIndexOf(':')));
}

export function getIndexOfTab(tabId: string): number {
  return Number(tabId.slice(tabId.lastIndexOf(':') + 1));
}

export function getTabId(slotId: string, index: number): string {
  return `${slotId}:${index}`;
}
