/** Version written into plan files; a reader of this version reads this one and every older. */
export const PLAN_VERSION = 2;

/** Version written into shop files. */
export const SHOP_VERSION = 2;
