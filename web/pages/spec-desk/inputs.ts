/**
 * What is asked at the spec desk, as it was typed, and the address that holds it.
 *
 * The address is the whole state: whoever opens the link sees the same sheet. Only what differs from the usual stands
 * in it. Nothing is judged here; that is for what reads the fields.
 */

export interface Inputs {
  thread: string
  grade: string
  /** A state of `LUBRICATIONS`, or `measured` with `mu` beside it; nothing is taken where nothing is said. */
  lubrication: string
  mu: string
  utilisation: string
  headBearing: string
  clearanceHole: string
  /** What the manual prints for this fastener, as printed. */
  printed: string
  /** Words printed beside the torque that was taken from among them. */
  beside: string
  /** Which pass of the printed ones goes on the wrench, from 1. */
  pass: string
  material: string
  length: string
  boltThread: string
  stack: string
  washer: string
  threadDepth: string
  holeDepth: string
  bottom: string
  insert: string
  insertLength: string
  insertOuter: string
  wrenchLength: string
  adapterLength: string
  adapterAngle: string
  tolerance: string
  pattern: string
  count: string
  rows: string
  convert: string
}
export type InputField = keyof Inputs

/** The word of the address, and what stands where nothing was said. */
const FIELDS: { [Field in InputField]: readonly [key: string, usual: string] } = {
  thread: ['thread', ''],
  grade: ['class', ''],
  lubrication: ['lubrication', ''],
  mu: ['friction', ''],
  utilisation: ['use', ''],
  headBearing: ['bearing', ''],
  clearanceHole: ['clearance', ''],
  printed: ['printed', ''],
  beside: ['beside', ''],
  pass: ['pass', ''],
  material: ['hole', ''],
  length: ['length', ''],
  boltThread: ['bolt-thread', ''],
  stack: ['stack', ''],
  washer: ['washer', ''],
  threadDepth: ['depth', ''],
  holeDepth: ['drilled', ''],
  bottom: ['bottom', 'blind'],
  insert: ['insert', 'none'],
  insertLength: ['insert-length', ''],
  insertOuter: ['insert-thread', ''],
  wrenchLength: ['wrench', ''],
  adapterLength: ['adapter', ''],
  adapterAngle: ['angle', ''],
  tolerance: ['band', ''],
  pattern: ['pattern', 'circle'],
  count: ['bolts', ''],
  rows: ['rows', ''],
  convert: ['convert', ''],
}
const NAMES = Object.keys(FIELDS) as InputField[]

/** A page of a manual is longer, one fastener's line is not. */
const LONGEST = 1000

/** Addresses of an older build say `plated` for `zinc_plated`. */
export function inputsFrom(search: string): Inputs {
  const params = new URLSearchParams(search)
  const entries = NAMES.map((name) => {
    const [key, usual] = FIELDS[name]
    const said = (params.get(key) ?? usual).slice(0, LONGEST)
    return [name, name === 'lubrication' && said === 'plated' ? 'zinc_plated' : said] as const
  })
  return Object.fromEntries(entries) as unknown as Inputs
}

/** `?thread=M10x1.25&hole=cast_iron`, or nothing where nothing is asked. */
export function searchOf(inputs: Inputs): string {
  const words = new URLSearchParams()
  for (const name of NAMES) {
    const [key, usual] = FIELDS[name]
    const value = inputs[name].trim()
    if (value !== usual && value !== '') words.set(key, value)
  }
  const search = words.toString()
  return search && `?${search}`
}

/** Labels as on the screen, for the paper too. */
export const LABELS: Record<InputField, string> = {
  thread: 'Thread',
  grade: 'Class or grade',
  lubrication: 'Thread and head are',
  mu: 'Measured friction',
  utilisation: 'Share of yield',
  headBearing: 'Head bears on, mm across',
  clearanceHole: 'Clearance hole, mm',
  printed: 'What the manual prints',
  beside: 'Printed beside it',
  pass: 'Pass to set',
  material: 'The hole is cut in',
  length: 'Bolt length, mm',
  boltThread: 'Its own thread, mm',
  stack: 'Clamped stack, mm',
  washer: 'Washer, mm',
  threadDepth: 'Thread depth, mm',
  holeDepth: 'Drilled to, mm',
  bottom: 'The hole is',
  insert: 'Insert',
  insertLength: 'Insert length, mm',
  insertOuter: 'Its outer thread',
  wrenchLength: 'Wrench, mm',
  adapterLength: 'Adapter, mm',
  adapterAngle: 'Adapter’s angle, °',
  tolerance: 'Band, ± %',
  pattern: 'The bolts stand in',
  count: 'How many bolts',
  rows: 'Rows',
  convert: 'A torque to convert',
}
