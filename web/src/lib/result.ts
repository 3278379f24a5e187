/** What went well, or what stood in the way. Nothing that a person can put right is thrown. */
export type Result<T, E> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

export const good = <T>(value: T): Result<T, never> => ({ ok: true, value });
export const bad = <E>(error: E): Result<never, E> => ({ ok: false, error });
