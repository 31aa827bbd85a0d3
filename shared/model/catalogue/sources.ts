/** What an entry says of its figures when no standard or handbook stands behind them. */
export const TYPICAL = 'typical, measure your own';
export const COMMON_PRACTICE = 'common practice, no source';
export const FROM_MEMORY = 'from memory, not verified: check before use';
