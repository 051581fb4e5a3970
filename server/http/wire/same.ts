/**
 * Whether a description of the wire and the type it describes say the same: `true satisfies Same<Plain<…>, Plain<…>>` no longer
 * compiles if one gains, loses or changes a field. For types only; nothing of it runs.
 */

/** Intersections flattened and everything read-only, so that two ways of writing one type look the same. */
export type Plain<T> = T extends readonly unknown[] | object ? { readonly [K in keyof T]: Plain<T[K]> } : T;

/** `true` only where each type can stand for the other. */
export type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : false) : false;
