/** The views of the top bar, in their order. */
export const VIEWS = ['Parts', 'Bench', 'Order', 'Sheet', 'Shop'] as const;

export type ViewName = (typeof VIEWS)[number];

/** Dialogs that a key opens from any view, by their names. */
export const DIALOGS_BY_KEY = [
  ['Control+o', 'Open a plan'],
  ['Control+Shift+s', 'Save the plan'],
  ['F1', 'Guide and cautions'],
  ['Control+k', 'Commands'],
  ['Alt+w', 'Workings'],
  ['Alt+c', 'Two variants side by side'],
] as const;
