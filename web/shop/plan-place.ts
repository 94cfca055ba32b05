/** Where in a plan a fault or a caution stands, and what to do about it, as the plan's author knows it: no paths of the file. */
import { lowerFirst, upperFirst } from '../../shared/words'

type Key = string | number

/** `steps[4] B2 › joints[0] G-B2 › passes[1].torqueNm` as its keys, without the ids that stand beside for a reader. */
export function keysOf(path: string): Key[] {
  if (path === 'the plan') return []
  return path.split(' › ').flatMap((part) => {
    const [keys = ''] = part.split(' ')
    return [...keys.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map(
      ([, name, index]): Key => (index === undefined ? (name ?? '') : Number(index)),
    )
  })
}

/** What a list of the file holds: how one of its entries is called. */
const ENTRIES: Record<string, (entry: Named, index: number) => string> = {
  stages: ({ title }, i) => `stage ${title ?? i + 1}`,
  steps: ({ id, title }, i) => (id === undefined ? `step ${i + 1}` : `${id} ${title ?? ''}`.trimEnd()),
  joints: ({ title }, i) => title ?? `joint ${i + 1}`,
  passes: (_, i) => `pass ${i + 1}`,
  positions: ({ n }, i) => `fastener ${n ?? i + 1}`,
  measurements: ({ title }, i) => title ?? `measurement ${i + 1}`,
  gates: ({ text }, i) => (text ? `“${text}”` : `check ${i + 1}`),
  parts: ({ name }, i) => name ?? `part ${i + 1}`,
  sets: ({ title }, i) => title ?? `signature set ${i + 1}`,
  hides: () => 'what it covers',
  covers: () => 'what it covers',
  needs: () => 'what it comes after',
  clampsAlso: () => 'what it clamps as well',
  outline: () => 'drawing',
  places: () => 'places',
  notes: (_, i) => `note ${i + 1}`,
  notices: (_, i) => `notice ${i + 1}`,
  cautions: (_, i) => `caution ${i + 1}`,
}

/** Entries whose name in the file is not the word for them. */
const FIELDS: Record<string, string> = {
  id: 'its id',
  family: 'engine family',
  n: 'its number',
  x: 'its place on the map',
  y: 'its place on the map',
  low: 'lowest',
  high: 'highest',
  min: 'lowest',
  max: 'highest',
  minNm: 'lowest',
  maxNm: 'highest',
  minDeg: 'lowest',
  maxDeg: 'highest',
  torqueNm: 'torque',
  angleDeg: 'angle',
  lengthMm: 'length',
  boltThreadMm: 'length of its thread',
  stackMm: 'clamped length',
  washerMm: 'washer',
  aboveMm: 'what stands above',
  depthMm: 'depth of the hole',
  threadMm: 'depth of the thread',
  oneUse: 'one-use',
  recheckOf: 'looked at again',
  interruption: 'when it is interrupted',
  torqueOnly: 'before any angle',
  afterAngle: 'after an angle',
  overshootDeg: 'turned too far',
  asPrinted: 'taken as printed',
  leadsTo: 'what follows from it',
  closeWithinMinutes: 'minutes to close',
  cureMinutes: 'minutes to cure',
  releases: 'release',
}

interface Named {
  id?: string
  title?: string
  name?: string
  text?: string
  n?: number
}

/** `B2 Main caps: Main bolts, pass 2, torque` for a path; a plan of any layout, as far as it can be followed. */
export function placeWords(plan: unknown, path: string): string {
  const line = path.match(/^line (\d+), column \d+$/)
  if (line) return `Line ${line[1]}`
  let value: unknown = plan
  let list: string | undefined
  const parts: string[] = []
  for (const key of keysOf(path)) {
    value = typeof value === 'object' && value !== null ? (value as Record<Key, unknown>)[key] : undefined
    if (typeof key === 'number') {
      const named = typeof value === 'object' && value !== null ? (value as Named) : {}
      if (list !== undefined) parts.splice(-1, 1, ENTRIES[list]?.(named, key) ?? `${list} ${key + 1}`)
      list = undefined
    } else {
      list = key
      parts.push(FIELDS[key] ?? key)
    }
  }
  const [first, ...rest] = parts
  if (first === undefined) return 'The plan'
  return rest.length === 0 ? upperFirst(first) : `${upperFirst(first)}: ${rest.join(', ')}`
}

/** What is wrong as a sentence: a fault of the file's layout says `is missing` of its place. */
export const problemWords = (problem: string): string =>
  /^(is|has|cannot) /.test(problem) ? `It ${problem}` : upperFirst(problem)

/** A caution in two sentences: what is odd, and what to do unless it is meant so. */
export const cautionFix = (fix: string): string => `If that is not meant: ${lowerFirst(fix)}`
