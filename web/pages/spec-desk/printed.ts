/** What the manual prints for this fastener, read: its passes, what contradicts in it, and which pass goes on a wrench. */
import { isRefusal } from '../../../shared/log'
import {
  type PrintedTorque,
  readSpec,
  type Spec,
  specSentenceFor,
  type TorqueSpec,
  torqueWords,
} from '../../../shared/spec'
import { parseTorque, TORQUE_UNITS, type TorqueUnit, unitSentenceFor } from '../../../shared/units'
import { format } from '../../format'
import type { Inputs } from './inputs'
import type { Unread } from './part'

export type Printed =
  | { state: 'none' }
  | {
      state: 'read'
      spec: Spec
      toSet?: { pass: number; spec: TorqueSpec }
      /** An angle follows the torque to set: its preload comes from the angle. */
      seats: boolean
    }
  | Unread

const unread = (why = '', data: unknown): Unread => ({
  state: 'refused',
  why,
  readings: (data as Partial<Unread> | undefined)?.readings ?? [],
  note: (data as Partial<Unread> | undefined)?.note ?? '',
})

/** The pass to set is the one asked for, else the last torque: that is the one that counts. */
export function printedOf(inputs: Inputs): Printed {
  if (inputs.printed.trim() === '') return { state: 'none' }
  const read = readSpec(inputs.printed)
  if (isRefusal(read)) return unread(specSentenceFor(read, format), read.data)
  const torques = read.passes.flatMap((pass, i) =>
    pass.kind === 'torque' ? [{ pass: i + 1, spec: pass }] : [],
  )
  const toSet = torques.find(({ pass }) => String(pass) === inputs.pass) ?? torques.at(-1)
  const seats = toSet !== undefined && read.passes.slice(toSet.pass).some(({ kind }) => kind === 'angle')
  // Two printed units that cannot both be right leave no torque to set.
  return { state: 'read', spec: read, seats, ...(toSet && !read.contradiction ? { toSet } : {}) }
}

/** Both readings of a contradiction, each in N·m, to be held against the page. */
export function contradictionWords({ contradiction }: Spec): string | undefined {
  if (!contradiction) return undefined
  const torque = (printed: PrintedTorque) => `“${printed.text}” is ${torqueWords(printed, format)}`
  return (
    `The manual contradicts itself: ${torque(contradiction.first)}, ${torque(contradiction.second)}. ` +
    'Nothing is set from it. Ask the maker which one holds.'
  )
}

export type Converted =
  | { state: 'none' }
  | Unread
  | { state: 'read'; nm: number; rows: { unit: TorqueUnit; shown: string; asTyped: boolean }[] }

/** Every torque of an engine lies well within; beyond it some unit would show nothing, or nothing but noughts. */
const LEAST_NM = 0.001
const MOST_NM = 1_000_000

export function convertedOf(text: string): Converted {
  if (text.trim() === '') return { state: 'none' }
  const read = parseTorque(text)
  if (isRefusal(read)) return unread(unitSentenceFor(read, format), read.data)
  if (!(read.nm >= LEAST_NM && read.nm <= MOST_NM))
    return unread(
      `“${text.trim()}” is not between ${format.number(LEAST_NM)} and ${format.number(MOST_NM)} N·m. Enter a torque within.`,
      undefined,
    )
  return {
    state: 'read',
    nm: read.nm,
    rows: TORQUE_UNITS.map((unit) => ({
      unit,
      shown: format.torque(read.nm, unit),
      asTyped: unit === read.unit,
    })),
  }
}
