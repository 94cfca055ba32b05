/**
 * Tests that read like the shop floor: `given(what happened).when(what is asked).gives(…)`.
 *
 * Everything has a default; a test states only what matters. What is given must be accepted, or the test
 * stops there: a fixture that was refused would prove nothing.
 */
import { expect } from 'vitest'
import type { Context, Outcome, PlannedJob } from '../../../shared/job/context'
import { decide } from '../../../shared/job/decide'
import { evolveAll, newJob } from '../../../shared/job/evolve'
import { type RefusalCode, sentenceFor } from '../../../shared/job/refusals'
import type { Flag, Job, JobCommand, JobEvent, NewPhoto, Reading, Waived } from '../../../shared/job/types'
import { isRefusal, type Refusal } from '../../../shared/log'
import type { Shop } from '../../../shared/shop/types'
import { START, testShop } from './shop'

/** A command and who gives it; the n-th of a test happens n minutes after the start unless `at` says when. */
export interface Act extends Partial<Omit<Context, 'doneAt'>> {
  command: JobCommand
  by: string
  /** Minutes after the start. */
  at?: number
}

export type Given = Act | JobEvent | Given[]

const isAct = (given: Act | JobEvent): given is Act => 'command' in given

export const words = {
  person: (id: string) => id,
  moment: (at: number) => new Date(at).toISOString().slice(11, 16),
}

export const uuid = (n: number): string => `01900000-0000-7000-8000-${n.toString(16).padStart(12, '0')}`

export function contextOf(act: Act, count: number, shop: Shop): Context {
  const { command: _, at = count, ...rest } = act
  return { shop, commandId: uuid(count), through: 'sign_in', ...rest, doneAt: START + at * 60_000 }
}

/** The job after all that; `count` goes on for the next command's id and minute. */
export function run(
  start: Job,
  happened: readonly Given[],
  shop: Shop,
  from = 1,
): { job: Job; count: number } {
  let job = start
  let count = from
  for (const one of happened.flat(9) as (Act | JobEvent)[]) {
    if (isAct(one)) {
      const outcome = decide(job, one.command, contextOf(one, count, shop))
      if (isRefusal(outcome))
        throw new Error(`given, but refused: ${outcome.refused} ${JSON.stringify(outcome.data)}`)
      job = evolveAll(job, outcome)
    } else job = evolveAll(job, [one])
    count += 1
  }
  return { job, count }
}

class Then {
  constructor(
    readonly before: Job,
    readonly outcome: Outcome,
  ) {}

  /** The job after it. */
  get job(): PlannedJob {
    return evolveAll(this.before, this.events) as PlannedJob
  }

  get events(): JobEvent[] {
    if (isRefusal(this.outcome))
      throw new Error(`refused: ${this.outcome.refused} ${JSON.stringify(this.outcome.data)}`)
    return this.outcome as JobEvent[]
  }

  refuses(code: RefusalCode, data: Record<string, unknown> = {}): void {
    expect(this.outcome).toMatchObject({ refused: code, data })
    const said = sentenceFor(this.outcome as Refusal, words)
    expect(said).not.toMatch(/undefined|NaN|\[object|Reload the page/)
  }

  /** Exactly these events, each with at least these fields. */
  gives(...events: (Partial<JobEvent> & { type: JobEvent['type'] })[]): this {
    expect(this.outcome).not.toHaveProperty('refused')
    expect(this.events.map(({ type }) => type)).toEqual(events.map(({ type }) => type))
    expect(this.events).toMatchObject(events)
    return this
  }

  thenNothing(): void {
    expect(this.outcome).toEqual([])
  }

  /** A reading is recorded, with exactly these flags. */
  flags(...flags: Flag[]): this {
    expect(this.reading.flags).toEqual(flags)
    return this
  }

  get reading(): Reading {
    const taken = this.events.find((event) => event.type === 'ReadingTaken')
    if (!taken) throw new Error('no reading was recorded')
    return taken
  }
}

class Story {
  constructor(
    private readonly start: Job,
    private readonly happened: Given[],
    private readonly shop: Shop = testShop,
    private readonly asked: Partial<Act> = {},
  ) {}

  /** The same in another shop: it counts for what is asked, not for what was given. */
  inShop(shop: Partial<Shop>): Story {
    return new Story(this.start, this.happened, { ...this.shop, ...shop }, this.asked)
  }

  when(act: Act): Then {
    const { job, count } = run(this.start, this.happened, testShop)
    return new Then(job, decide(job, act.command, contextOf(act, count, this.shop)))
  }

  get job(): PlannedJob {
    return run(this.start, this.happened, testShop).job as PlannedJob
  }
}

/** No job yet. */
export const fresh = (...happened: Given[]): Story => new Story(newJob('job-1'), happened)

/** An open job that follows the test plan. */
export const given = (...happened: Given[]): Story => fresh(open(), adoptPlan(), ...happened)

/** An open job that follows the plan of the whole floor. */
export const floor = (...happened: Given[]): Story =>
  fresh(open(), adoptPlan({ planId: 'floor-engine' }), ...happened)

type But<T extends JobCommand['type']> = Partial<Omit<Extract<JobCommand, { type: T }>, 'type'>> &
  Partial<Omit<Act, 'command'>>

/** Splits what a test says into the command's own fields and the act around them. */
function act<T extends JobCommand['type']>(
  type: T,
  defaults: Omit<Extract<JobCommand, { type: T }>, 'type'>,
  but: But<T>,
  by = 'ana',
): Act {
  const {
    by: who = by,
    at,
    through,
    sawVersion,
    numberTaken,
    clockOffsetMs,
    commandId,
    head,
    bytesHere,
    ...own
  } = but as Partial<Act>
  const around = { at, through, sawVersion, numberTaken, clockOffsetMs, commandId, head, bytesHere }
  const said = Object.fromEntries(Object.entries(around).filter(([, value]) => value !== undefined))
  return { command: { type, ...defaults, ...own } as unknown as JobCommand, by: who, ...said }
}

const engine = { model: 'Test engine', serial: 'T-1' }

export const open = (but: But<'OpenJob'> = {}): Act =>
  act('OpenJob', { number: 'E-1', engine, owner: 'An owner', agreed: 'Rebuild' }, but, 'wim')
export const adoptPlan = (but: But<'AdoptPlan'> = {}): Act =>
  act('AdoptPlan', { planId: 'test-engine', edition: 1 }, but, 'dee')
export const claim = (stepId: string, but: But<'ClaimStep'> = {}): Act => act('ClaimStep', { stepId }, but)
export const putDown = (stepId: string, but: But<'PutDownStep'> = {}): Act =>
  act('PutDownStep', { stepId }, but)
export const scale = (jointId: string, value: number, but: But<'EnterScale'> = {}): Act =>
  act('EnterScale', { jointId, pass: 1, wrenchId: 'click', value }, but)
export const click = (jointId: string, position: number, but: But<'TakeReading'> = {}): Act =>
  act('TakeReading', { jointId, position, pass: 1, how: 'clicked', wrenchId: 'click' }, but)
export const shows = (jointId: string, position: number, value: number, but: But<'TakeReading'> = {}): Act =>
  act('TakeReading', { jointId, position, pass: 1, how: 'indicated', wrenchId: 'dial', value }, but)
export const turn = (jointId: string, position: number, value: number, but: But<'TakeReading'> = {}): Act =>
  act('TakeReading', { jointId, position, pass: 2, how: 'turned', wrenchId: 'gauge', value }, but)
export const slacken = (jointId: string, position: number, but: But<'TakeReading'> = {}): Act =>
  act('TakeReading', { jointId, position, pass: 1, how: 'slackened' }, but)
export const strike = (readingId: string, but: But<'StrikeReading'> = {}): Act =>
  act('StrikeReading', { readingId, reason: 'mistyped' }, but)
export const measure = (place: string, value: number, but: But<'TakeMeasurement'> = {}): Act =>
  act('TakeMeasurement', { stepId: 'caps', measurementId: 'gap', place, value, instrument: 'feeler' }, but)
export const strikeMeasured = (entryId: string, but: But<'StrikeMeasurement'> = {}): Act =>
  act('StrikeMeasurement', { entryId, reason: 'mistyped' }, but)
export const answer = (gateId: string, but: But<'AnswerGate'> = {}): Act =>
  act('AnswerGate', { stepId: 'caps', gateId }, but)
export const sign = (stepId: string, but: But<'SignStep'> = {}): Act => act('SignStep', { stepId }, but)
export const secondSign = (stepId: string, but: But<'SecondSignStep'> = {}): Act =>
  act('SecondSignStep', { stepId }, but, 'bo')

export const handOver = (stepId: string, to: string, but: But<'HandOverStep'> = {}): Act =>
  act('HandOverStep', { stepId, to }, but)
export const count = (jointId: string, n: number, but: But<'CountRound'> = {}): Act =>
  act('CountRound', { jointId, pass: 1, wrenchId: 'click', count: n }, but)
export const restart = (jointId: string, position: number, but: But<'RestartRound'> = {}): Act =>
  act('RestartRound', { jointId, position, how: 'again' }, but)
export const place = (jointId: string, positions: number[], but: But<'PlaceFasteners'> = {}): Act =>
  act('PlaceFasteners', { jointId, positions, condition: 'new' }, but)
export const hole = (jointId: string, position: number, but: But<'RecordHole'> = {}): Act =>
  act('RecordHole', { jointId, position, condition: 'stripped' }, but)
export const bead = (stepId: string, but: But<'StartSealant'> = {}): Act =>
  act('StartSealant', { stepId }, but)
export const closed = (stepId: string, but: But<'CloseSealant'> = {}): Act =>
  act('CloseSealant', { stepId }, but)
export const look = (stepId: string, personId: string, but: But<'NoteLook'> = {}): Act =>
  act('NoteLook', { stepId, personId }, but)
export const recheck = (stepId: string, but: But<'RecheckOwnWork'> = {}): Act =>
  act('RecheckOwnWork', { stepId }, but)
export const raise = (stepIds: string[], but: But<'RaiseHold'> = {}): Act =>
  act('RaiseHold', { kind: 'part', stepIds, what: 'a shim' }, but)
export const changeHold = (holdId: string, but: But<'ChangeHold'> = {}): Act =>
  act('ChangeHold', { holdId }, but)
export const clear = (holdId: string, but: But<'ClearHold'> = {}): Act =>
  act('ClearHold', { holdId, how: 'it came' }, but)
export const leaveOut = (
  joint: string,
  positions: number[],
  dueStepId: string,
  but: But<'Defer'> = {},
): Act =>
  act(
    'Defer',
    { what: { kind: 'fasteners', joint, positions }, dueStepId, reason: 'the eye is there' },
    but,
    'dee',
  )
export const leaveStep = (stepId: string, dueStepId: string, but: But<'Defer'> = {}): Act =>
  act('Defer', { what: { kind: 'step', stepId }, dueStepId, reason: 'no room yet' }, but, 'dee')
export const withdraw = (deferralId: string, but: But<'WithdrawDeferral'> = {}): Act =>
  act('WithdrawDeferral', { deferralId, reason: 'fitted after all' }, but, 'dee')
export const settle = (jointId: string, torqueNm: number, but: But<'SettleValue'> = {}): Act =>
  act(
    'SettleValue',
    {
      jointId,
      pass: 1,
      torqueNm,
      minNm: torqueNm - 1,
      maxNm: torqueNm + 1,
      basis: { kind: 'word', competence: 'thirty years of bronze' },
      reason: 'bronze, low pressure',
    },
    but,
    'dee',
  )
export const waive = (what: Waived, but: But<'Waive'> = {}): Act =>
  act('Waive', { what, reason: 'seen and accepted' }, but, 'dee')
export const release = (kind: 'to_fitting' | 'to_owner', but: But<'Release'> = {}): Act =>
  act('Release', { kind }, { head: 'a'.repeat(64), ...but }, 'dee')
export const warranty = (but: But<'OpenWarranty'> = {}): Act =>
  act('OpenWarranty', { complaint: 'weeps at the filter' }, but, 'wim')
export const closeWarranty = (but: But<'CloseWarranty'> = {}): Act =>
  act('CloseWarranty', { finding: 'no fault found: dry after an hour’s run' }, but, 'dee')
export const takeOff = (stepId: string, but: But<'TakeOff'> = {}): Act => act('TakeOff', { stepId }, but)
export const promise = (date: string, but: But<'PromiseDate'> = {}): Act =>
  act('PromiseDate', { date, reason: 'the shim' }, but, 'wim')
export const note = (text: string, but: But<'AddNote'> = {}): Act => act('AddNote', { text }, but)
export const photo = (
  id: string,
  some: Partial<NewPhoto> = {},
  but: Partial<Omit<Act, 'command'>> = {},
): Act =>
  act(
    'AddPhoto',
    {
      photo: {
        id,
        sha256: 'b'.repeat(64),
        bytes: 9000,
        mime: 'image/webp',
        widthPx: 1600,
        heightPx: 1200,
        ...some,
      },
    },
    but,
  )
export const arrived = (photoId: string, but: But<'ConfirmPhoto'> = {}): Act =>
  act('ConfirmPhoto', { photoId }, { bytesHere: () => true, ...but })

/** The id of what the n-th act of `given(…)` entered; opening and adopting came before it. */
export const entry = (n: number): string => uuid(n + 2).slice(-8)

/** Longer stories, each right in every respect. */
export const headTorqued = (by = 'ana'): Given[] => [
  claim('head', { by }),
  [2, 1, 4, 3].map((n) => shows('JH', n, 30, { by })),
]
export const headTurned = (by = 'ana'): Given[] => [
  headTorqued(by),
  [2, 1, 4, 3].map((n) => turn('JH', n, 90, { by })),
]
export const headSigned = (by = 'ana'): Given[] => [headTurned(by), sign('head', { by })]
export const headProven = (by = 'ana', second = 'bo'): Given[] => [
  headSigned(by),
  secondSign('head', { by: second }),
]

export const capTorqued = (cap: 1 | 2, by = 'ana'): Given[] =>
  (cap === 1 ? [2, 1] : [4, 3]).map((n) => shows('JC', n, 50, { by }))
export const capSigned = (cap: 1 | 2): Given[] => [capTorqued(cap), sign('caps', { setId: `cap-${cap}` })]
export const capsMeasured = (): Given[] => [
  measure('cap 1', 0.05),
  measure('cap 2', 0.05),
  measure('crank', 0.2, { measurementId: 'float' }),
]
export const capsAnswered = (): Given[] => [answer('shells', { count: 4 }), answer('turns')]
/** Both caps signed, everything measured and answered: only the step's own word is to come. */
export const capsReady = (): Given[] => [
  claim('caps'),
  capSigned(1),
  capSigned(2),
  capsMeasured(),
  capsAnswered(),
]

/** Every word on the caps, from both, with the picture its gate asks for. */
export const capsProven = (): Given[] => [
  capsReady(),
  sign('caps'),
  ['cap-1', 'cap-2', 'step'].map((setId) => secondSign('caps', { setId })),
  photo('front', { stepId: 'caps', gateId: 'picture', place: 'front' }),
  arrived('front'),
]
/** Right in every respect: closed in its window; cures until an hour after `at` + 5. */
export const sumpDone = (at = 100): Given[] => [
  claim('sump', { by: 'cy', at }),
  bead('sump', { by: 'cy', at }),
  [1, 2].map((n) => shows('JS', n, 10, { by: 'cy', at: at + 2 })),
  closed('sump', { by: 'cy', at: at + 5 }),
  sign('sump', { by: 'cy', at: at + 6 }),
]
export const coverDone = (): Given[] => [
  claim('cover', { by: 'cy' }),
  [1, 2].map((n) => shows('JV', n, 10, { by: 'cy' })),
  sign('cover', { by: 'cy' }),
]
export const reseatDone = (): Given[] => [
  claim('reseat'),
  [1, 2].map((n) => shows('JR', n, 20, { at: 110 })),
  [1, 2].map((n) => slacken('JR', n, { pass: 2, at: 112 })),
  [1, 2].map((n) => shows('JR', n, 25, { pass: 4, at: 150 })),
  sign('reseat', { at: 152 }),
]
export const drainDone = (): Given[] => [settle('JN', 12), claim('drain'), shows('JN', 1, 12), sign('drain')]
export const proofBegun = (at = 200): Given[] => [
  claim('proof', { by: 'cy', at }),
  [1, 2].map((n) => shows('JX', n, 10, { by: 'cy', at })),
]
/** Everything the plan asks, to the last word. */
export const allDone = (): Given[] => [
  capsProven(),
  headProven(),
  coverDone(),
  sumpDone(),
  reseatDone(),
  drainDone(),
  proofBegun(),
  sign('proof', { by: 'cy', at: 205 }),
]

/** On the floor's plan: a joint read at one number, position by position. */
export const all = (
  jointId: string,
  positions: number[],
  value: number,
  but: But<'TakeReading'> = {},
): Act[] => positions.map((n) => shows(jointId, n, value, but))
export const rodsProven = (): Given[] => [
  claim('rods'),
  place('JO', [1, 2]),
  all('JO', [1, 2], 40),
  sign('rods'),
  secondSign('rods'),
]
export const pumpSigned = (positions = [1, 2, 3]): Given[] => [
  claim('pump'),
  all('JP', positions, 30),
  sign('pump'),
]
export const pumpProven = (positions?: number[]): Given[] => [pumpSigned(positions), secondSign('pump')]
export const housingSigned = (by = 'ana'): Given[] => [
  claim('housing', { by }),
  all('JB', [1, 2, 3, 4, 5, 6, 7, 8], 22, { by }),
  sign('housing', { by }),
]
export const housingProven = (): Given[] => [housingSigned(), secondSign('housing')]
export const twinTurned = (cap: 'left' | 'right'): Given[] => {
  const positions = cap === 'left' ? [1, 2] : [3, 4]
  return [all('JT', positions, 20), positions.map((n) => turn('JT', n, 60))]
}
export const twinDone = (): Given[] => [
  claim('twin'),
  twinTurned('left'),
  twinTurned('right'),
  sign('twin', { setId: 'left' }),
  sign('twin', { setId: 'right' }),
]
export const sealDone = (at = 100): Given[] => [
  claim('seal', { at }),
  bead('seal', { at }),
  all('JE', [1, 2], 9, { at: at + 5 }),
  closed('seal', { at: at + 7 }),
  sign('seal', { at: at + 8 }),
]
/** Everything up to the release to fitting, at minute 900; the bead cured at 827. */
export const buildDone = (): Given[] => [
  rodsProven(),
  pumpProven(),
  twinDone(),
  housingProven(),
  [claim('trial'), place('JY', [1, 2]), all('JY', [1, 2], 12), sign('trial')],
  [claim('shroud'), all('JS', [1, 2], 9), sign('shroud')],
  sealDone(),
  [claim('fill', { at: 830 }), sign('fill', { at: 831 })],
  [claim('closing'), answer('rags', { stepId: 'closing', count: 3 }), sign('closing'), secondSign('closing')],
]
export const liftDone = (): Given[] => [
  claim('lift'),
  shows('JL', 1, 15),
  sign('lift'),
  ['port', 'starboard'].map((place) => [
    photo(place, { stepId: 'lift', gateId: 'aboard', place }),
    arrived(place),
  ]),
]
