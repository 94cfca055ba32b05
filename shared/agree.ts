/** Types alone: whether a schema and a type say the same, optional entries too. */

type Whole<T> = T extends object ? { [K in keyof T]-?: Whole<Exclude<T[K], undefined>> } : T

/** `true` where they do: `true satisfies Agree<z.infer<typeof schema>, Type>` does not compile otherwise. */
export type Agree<A, B> = [Whole<A>] extends [Whole<B>]
  ? [Whole<B>] extends [Whole<A>]
    ? true
    : false
  : false
