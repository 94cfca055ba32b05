/**
 * A kind of something is a table: its names are the keys, what is so of each stands beside it, and the type is derived
 * from it. A kind forgotten somewhere does not compile.
 */

/** The names in a table, in its order; never none. */
export const kindsOf = <Kind extends string>(table: Readonly<Record<Kind, unknown>>): [Kind, ...Kind[]] =>
  Object.keys(table) as [Kind, ...Kind[]]
