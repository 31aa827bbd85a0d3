/** The views of the top bar, in their order. */
export const VIEWS = ['Parts', 'Bench', 'Order', 'Sheet', 'Shop'] as const;

export type ViewName = (typeof VIEWS)[number];
