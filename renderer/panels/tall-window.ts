/** A window of at least this many CSS pixels has room for several open sections of the setup panel. */
export const TALL_WINDOW = 900;

/** CSS pixels that one more open section takes, about. */
export const ROOM_FOR_A_SECTION = 250;
