/**
 * `true` when two types are the same, else `false`: an optional or read-only field, a missing member of a union, or
 * `any` makes a difference. Assigning `true` to it proves the two equal at compile time.
 */
export type SameType<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
