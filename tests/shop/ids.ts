/** The n-th id of a test, in the form of a UUID of version 7. */
export const uuid = (n: number): string => `01900000-0000-7000-8000-${n.toString(16).padStart(12, '0')}`

/** The id of what the n-th act of `given(…)` entered; opening and adopting came before it. */
export const entry = (n: number): string => uuid(n + 2).slice(-8)
