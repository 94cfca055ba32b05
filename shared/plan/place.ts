/**
 * Where in a plan file something stands, in words its author finds again:
 * `steps[4] B2 › joints[0] G-B2 › passes[1].torqueNm`. Counting starts at 0, as in the file.
 */
export interface PlanFault {
  path: string
  problem: string
  fix: string
  /** The same in the file's own names, where the place does not name them. */
  inFile?: string
  /** A supervisor may take the torque that stands there as printed, with its page as a photo. */
  asPrinted?: true
}

export type Path = (string | number)[]
export type Report = (
  path: Path,
  problem: string,
  fix: string,
  more?: Pick<PlanFault, 'asPrinted' | 'inFile'>,
) => void

export function placeName(root: unknown, path: readonly PropertyKey[]): string {
  let name = ''
  let value = root
  let named = false
  for (const key of path) {
    value =
      typeof value === 'object' && value !== null ? (value as Record<PropertyKey, unknown>)[key] : undefined
    if (typeof key === 'number') {
      const id = (value as { id?: unknown } | null | undefined)?.id
      named = typeof id === 'string'
      name += named ? `[${key}] ${id}` : `[${key}]`
    } else {
      name += `${name && (named ? ' › ' : '.')}${String(key)}`
      named = false
    }
  }
  return name || 'the plan'
}
