/**
 * The torque band of the fastener asked: by its lubrication, beside every other state, and beside what was printed.
 *
 * A printed torque is never judged right or wrong by it: what is said is what it would make of the bolt.
 */
import {
  airframeTorque,
  frictionBand,
  LUBRICATIONS,
  type Lubrication,
  type Thread,
  type Tightening,
  tightening,
} from '../../../shared/fastener'
import { isRefusal } from '../../../shared/log'
import { entryOf, frictionOf } from './entries'
import type { Inputs } from './inputs'
import { open, type Part, refusedPart, there, unreadable, whyNot } from './part'

export const LUBRICATION_WORDS: Record<Lubrication, string> = {
  dry: 'dry, clean steel',
  oil: 'oiled',
  grease: 'greased',
  paste: 'pasted (molybdenum, graphite, PTFE)',
  anti_seize: 'with anti-seize',
  threadlocker: 'with liquid threadlocker',
  zinc_plated: 'zinc plated, nothing added',
  wax: 'waxed, as delivered',
}

/** What decides the number is asked, never taken: the class, and how thread and head are. */
export const NO_GRADE =
  'Enter the class or grade as it is marked on the head: without it nothing is computed.'
const NO_LUBRICATION = 'Say how thread and head are: a line of the table, or the field.'

/** One fastener, tightened: the answer for what is asked. */
export function tensionOf(inputs: Inputs, thread: Thread): Part<Tightening> {
  if (inputs.grade.trim() === '') return open(NO_GRADE)
  if (inputs.lubrication.trim() === '') return open(NO_LUBRICATION)
  const utilisation = entryOf(inputs, 'utilisation')
  const headBearing = entryOf(inputs, 'headBearing')
  const clearanceHole = entryOf(inputs, 'clearanceHole')
  const measured = inputs.lubrication === 'measured'
  const mu = measured ? frictionOf(inputs) : {}
  const unread = unreadable({ utilisation, headBearing, clearanceHole, mu })
  if (unread) return unread
  if (measured && mu.value === undefined)
    return open('Enter the measured friction of thread and head, as 0.12 or 0.10 to 0.14.')
  const result = tightening({
    thread,
    grade: inputs.grade,
    ...(mu.value === undefined ? { lubrication: inputs.lubrication } : { muThread: mu.value }),
    ...(utilisation.value === undefined ? {} : { utilisation: utilisation.value }),
    ...(headBearing.value === undefined ? {} : { headBearingMm: headBearing.value }),
    ...(clearanceHole.value === undefined ? {} : { holeMm: clearanceHole.value }),
  })
  return isRefusal(result) ? refusedPart(result) : there(result)
}

export interface LubricationRow {
  lubrication: Lubrication
  words: string
  chosen: boolean
  friction?: { low: number; high: number }
  lowNm?: number
  highNm?: number
  /** Why the line is greyed out. */
  why?: string
}

/** The same fastener in every state; a state without a band keeps its line, greyed, with the reason. */
export function lubricationTable(inputs: Inputs, thread: Thread): LubricationRow[] {
  return LUBRICATIONS.map((lubrication) => {
    const row = {
      lubrication,
      words: LUBRICATION_WORDS[lubrication],
      chosen: inputs.lubrication === lubrication,
    }
    const tension = tensionOf({ ...inputs, lubrication, mu: '' }, thread)
    if (tension.state !== 'there') return { ...row, why: whyNot(tension) }
    const { low, high, grade } = tension.value
    const band = frictionBand(lubrication, grade)
    return {
      ...row,
      ...(isRefusal(band) ? {} : { friction: { low: band.low, high: band.high } }),
      lowNm: low.torqueNm,
      highNm: high.torqueNm,
    }
  })
}

export interface TorqueBeside {
  torqueNm: number
  /** Share of the yield stress it uses, thread torsion with it, at the slipperiest and at the roughest. */
  useHigh: number
  useLow: number
  preloadHighN: number
  preloadLowN: number
  lies: 'below' | 'within' | 'above'
  /** At the slipperiest it would stretch the bolt for good. */
  pastYield: boolean
}

/**
 * What a torque makes of this bolt over the friction band. Preload and the share of yield both grow in proportion to
 * the torque: at a given friction the lever is the same.
 */
export function besideBand({ low, high, utilisation }: Tightening, torqueNm: number): TorqueBeside {
  const useHigh = (utilisation * torqueNm) / low.torqueNm
  return {
    torqueNm,
    useHigh,
    useLow: (utilisation * torqueNm) / high.torqueNm,
    preloadHighN: (low.preloadN * torqueNm) / low.torqueNm,
    preloadLowN: (high.preloadN * torqueNm) / high.torqueNm,
    lies: torqueNm < low.torqueNm ? 'below' : torqueNm > high.torqueNm ? 'above' : 'within',
    pastYield: useHigh > 1,
  }
}

/** The airframe table's line for an inch thread, where it prints one. */
export function airframeLine(thread: Thread) {
  if (thread.system === 'metric') return undefined
  const result = airframeTorque(thread)
  return isRefusal(result) ? undefined : result
}
