/**
 * Bolt and hole of the fastener asked: does it fit, which lengths would, what strips first, and the drawing of it.
 */
import {
  type Engagement,
  engagement,
  type HoleFit,
  type HoleFitInput,
  holeFit,
  type InsertGiven,
  type Thread,
} from '../../../shared/fastener'
import { isRefusal } from '../../../shared/log'
import { listed } from '../../../shared/words'
import type { BoltSection } from '../../drawings/bolt-in-hole'
import { entryOf } from './entries'
import { type InputField, type Inputs, LABELS } from './inputs'
import { open, type Part, refusedPart, there } from './part'
import { NO_GRADE } from './tension'

export interface Fit {
  fit: HoleFit
  /** Without a bolt length there is no verdict, only the lengths that would be right. */
  lengthMm?: number
  /** Read off the thread’s own words (`M10x1.5x40`). */
  lengthFromThread: boolean
  /** Open at the far end, or a nut. */
  through: boolean
  /** Not entered: taken as deep as its thread. */
  holeDepthTaken: boolean
  section?: BoltSection
}

export interface Strip {
  strip: Engagement
  /** Where the engaged length comes from: the bolt in its hole, the whole thread, or the trade’s 1.5 d. */
  lengthFrom: 'fit' | 'thread' | 'rule'
  /** The insert it was reckoned with, for whoever reckons further. */
  insert?: InsertGiven
}

const LENGTHS = [
  'length',
  'boltThread',
  'stack',
  'washer',
  'threadDepth',
  'holeDepth',
  'insertLength',
] as const
type Lengths = Partial<Record<(typeof LENGTHS)[number], number>>

/** The lengths typed, mm; the first that cannot be read stands for all. */
function lengthsOf(inputs: Inputs): Lengths | Part<never> {
  const lengths: Lengths = {}
  for (const field of LENGTHS) {
    if (field === 'insertLength' && inputs.insert === 'none') continue
    const { value, error } = entryOf(inputs, field)
    if (error) return { state: 'refused', why: error, field }
    if (value !== undefined) lengths[field] = value
  }
  return lengths
}

const isPart = (value: object): value is Part<never> => 'state' in value

function insertOf(inputs: Inputs, { insertLength }: Lengths): InsertGiven | undefined {
  if (inputs.insert === 'none') return undefined
  return {
    // What else the address may name is refused by the formulas themselves.
    kind: inputs.insert as InsertGiven['kind'],
    ...(insertLength === undefined ? {} : { lengthMm: insertLength }),
    ...(inputs.insert === 'solid' && inputs.insertOuter.trim() ? { outerThread: inputs.insertOuter } : {}),
  }
}

export function fitOf(inputs: Inputs, thread: Thread): Part<Fit> {
  const lengths = lengthsOf(inputs)
  if (isPart(lengths)) return lengths
  const { stack, washer = 0, threadDepth } = lengths
  const missing = (['stack', 'threadDepth'] as const).filter((field) => lengths[field] === undefined)
  if (stack === undefined || threadDepth === undefined)
    return open(`Enter ${listed(missing.map(plainLabel))} to see whether the bolt fits.`)
  const through = inputs.bottom === 'through'
  const lengthMm = lengths.length ?? thread.lengthMm
  const holeDepthTaken = lengths.holeDepth === undefined || through
  const insert = insertOf(inputs, lengths)
  const input: HoleFitInput = {
    boltLengthMm: lengthMm ?? stack + washer + 1.5 * thread.dMm,
    stackMm: stack,
    washerMm: washer,
    threadDepthMm: threadDepth,
    holeDepthMm: holeDepthTaken ? threadDepth : (lengths.holeDepth ?? threadDepth),
    through,
    thread,
    ...(insert ? { insert } : {}),
    // Without a bolt length there is no bolt that could stand on its shank.
    ...(lengths.boltThread === undefined ? {} : { boltThreadMm: lengths.boltThread }),
    ...(inputs.material === '' || inputs.grade.trim() === ''
      ? {}
      : { boltGrade: inputs.grade, holeMaterial: inputs.material }),
  }
  const fit = holeFit(input)
  if (isRefusal(fit)) return refusedPart(fit)
  const section: BoltSection | undefined =
    lengthMm === undefined
      ? undefined
      : {
          dMm: thread.dMm,
          pitchMm: thread.pitchMm,
          boltLengthMm: lengthMm,
          stackMm: stack,
          washerMm: washer,
          threadDepthMm: threadDepth,
          ...(through ? {} : { holeDepthMm: input.holeDepthMm }),
          ...(fit.insert
            ? {
                insert: {
                  kind: fit.insert.kind,
                  lengthMm: fit.insert.installedMinMm,
                  setDownMm: fit.insert.setDownMaxMm,
                },
              }
            : {}),
        }
  return there({
    fit,
    ...(lengthMm === undefined ? {} : { lengthMm }),
    lengthFromThread: lengths.length === undefined && thread.lengthMm !== undefined,
    through,
    holeDepthTaken: holeDepthTaken && !through,
    ...(section ? { section } : {}),
  })
}

export function stripOf(inputs: Inputs, thread: Thread, fit: Part<Fit>): Part<Strip> {
  if (inputs.material === '') return open('Choose what the hole is cut in to see what strips first.')
  if (inputs.grade.trim() === '') return open(NO_GRADE)
  const lengths = lengthsOf(inputs)
  if (isPart(lengths)) return lengths
  // Where the hole cannot be as it is entered, no length of thread is known to hold.
  if (fit.state === 'refused') return fit
  const held =
    fit.state === 'there' && fit.value.lengthMm !== undefined ? fit.value.fit.engagementMm : undefined
  if (held === 0)
    return { state: 'refused', why: 'The bolt does not reach the thread: nothing holds.', field: 'length' }
  const insert = insertOf(inputs, lengths)
  const strip = engagement({
    thread,
    boltGrade: inputs.grade,
    holeMaterial: inputs.material,
    // No more can hold than there is thread; a bolt that would go deeper stands on the bottom.
    engagementMm: Math.min(held ?? lengths.threadDepth ?? 1.5 * thread.dMm, lengths.threadDepth ?? 1e6),
    ...(insert ? { insert } : {}),
  })
  if (isRefusal(strip)) return refusedPart(strip)
  return there({
    strip,
    lengthFrom: held !== undefined ? 'fit' : lengths.threadDepth !== undefined ? 'thread' : 'rule',
    ...(insert ? { insert } : {}),
  })
}

/** Bolts are up to a fifth stronger than their class asks; common practice, no source. A thread’s strength is no surer. */
const CLOSE = 1.2

/** What gives way first: the bolt, a thread, or what is too close to say by figures that are this unsure. */
export function givesWayFirst({
  boltBreakN,
  boltStripN,
  holeStripN,
}: Engagement): 'bolt' | 'thread' | 'close' {
  const times = Math.min(boltStripN, holeStripN) / boltBreakN
  return times >= CLOSE ? 'bolt' : times > 1 / CLOSE ? 'close' : 'thread'
}

const plainLabel = (field: InputField): string => `“${LABELS[field].replace(/, mm$/, '')}”`
