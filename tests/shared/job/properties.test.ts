/** What holds whatever people do, over many random histories. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { flaggedReadings, signBeforeHidden, unitSlips, unpublished } from '../../../shared/audit/awaiting'
import { completeness, record } from '../../../shared/audit/record'
import { judgeTorque } from '../../../shared/fastener'
import { not } from '../../../shared/fastener/proposal-refusals'
import type { JobCommand } from '../../../shared/job/commands'
import { decide } from '../../../shared/job/decide'
import type { JobEvent } from '../../../shared/job/events'
import { evolve, evolveAll } from '../../../shared/job/evolve'
import { FLAGS } from '../../../shared/job/kinds'
import { reasonSentence } from '../../../shared/job/reason'
import { reasonFor } from '../../../shared/job/reason-for'
import { REFUSAL_CODES, sentenceFor } from '../../../shared/job/refusals'
import { summarise } from '../../../shared/job/summary'
import type { Job, PlannedJob } from '../../../shared/job/types'
import { isDone, setViews, standingOf } from '../../../shared/job/verdicts'
import { kindsOf } from '../../../shared/kinds'
import { isRefusal } from '../../../shared/log'
import { given } from '../../shop/given'
import { testPlan } from '../../shop/plans/test-engine'
import {
  commandsOf,
  contextFor,
  everybody,
  historyArbitrary,
  type Move,
  moveArbitrary,
  wildReading,
} from '../../shop/random/moves'
import { words } from '../../shop/words'
import { crib } from '../../shop/wrenches'

interface Lived {
  job: Job
  events: JobEvent[]
  nothing: number
}

/** Freezes what is handed in, so that a fold that changed it in place would throw. */
function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value)
    for (const inner of Object.values(value)) frozen(inner)
  }
  return value
}

type Watch = (before: Job, events: JobEvent[], after: Job, move: Move, command: JobCommand) => void

function live(moves: readonly Move[], watch?: Watch): Lived {
  let job: Job = given().job
  const events: JobEvent[] = []
  let nothing = 0
  let at = 10
  let count = 100
  for (const move of moves) {
    at += move.minutes
    for (const command of commandsOf(job, move)) {
      const outcome = decide(frozen(job), command, contextFor(job, move, count++, at))
      if (isRefusal(outcome)) {
        expect(badWords(sentenceFor(outcome, words))).toBeNull()
        continue
      }
      if (outcome.length === 0) nothing++
      const after = evolveAll(job, frozen(outcome))
      watch?.(job, outcome, after, move, command)
      events.push(...outcome)
      job = after
    }
  }
  return { job, events, nothing }
}

const badWords = (sentence: string) => sentence.match(/undefined|NaN|\[object|Reload the page|null/)
const runs = { numRuns: 150 }

describe('whatever people do', () => {
  test('[FW7] [FW8] decide never throws, evolve changes nothing in place, version counts events', () => {
    fc.assert(
      fc.property(historyArbitrary, (moves) => {
        live(moves, (before, events, after) => expect(after.version).toBe(before.version + events.length))
      }),
      runs,
    )
  })

  test('[FW1] facts are never refused: a reading of what exists, a scale of a known wrench, a measurement asked for', () => {
    fc.assert(
      fc.property(
        historyArbitrary,
        fc.array(moveArbitrary, { minLength: 10, maxLength: 40 }),
        (moves, facts) => {
          const job = live(moves).job as PlannedJob
          for (const move of facts) {
            const context = {
              ...contextFor(job, move, 5000, 900),
              by: everybody[move.a % everybody.length] ?? 'ana',
            }
            const reading = wildReading(job, move)
            const taken = decide(job, reading, context)
            expect(taken).not.toHaveProperty('refused')
            expect(taken).toMatchObject([
              { type: 'ReadingTaken' },
              ...Array((taken as JobEvent[]).length - 1).fill({}),
            ])
            const { jointId, pass } = reading
            const wrenchId = Object.keys(crib).filter((id) => id !== 'gauge')[move.b % 5] ?? 'click'
            const scale = decide(
              job,
              { type: 'EnterScale', jointId, pass, wrenchId, value: move.value },
              context,
            )
            expect(scale).toMatchObject([{ type: 'ScaleEntered', wrenchId }])
            const measured = {
              type: 'TakeMeasurement',
              stepId: 'caps',
              measurementId: 'gap',
              place: 'cap 1',
            } as const
            const entry = decide(job, { ...measured, value: move.value, instrument: 'feeler' }, context)
            expect((entry as JobEvent[])[0]).toMatchObject({ type: 'MeasurementTaken' })
          }
        },
      ),
      { numRuns: 60 },
    )
  })

  test('[FW8] the fold of a history equals the fold of its JSON, event by event or at once', () => {
    fc.assert(
      fc.property(historyArbitrary, (moves) => {
        const { job, events } = live(moves)
        const stored = JSON.parse(JSON.stringify(events)) as JobEvent[]
        const folded = stored.reduce(evolve, JSON.parse(JSON.stringify(given().job)) as Job)
        expect(folded).toEqual(job)
        expect(JSON.parse(JSON.stringify(job))).toEqual(job)
      }),
      runs,
    )
  })

  test('[SG9] [SG10] [LP1] no signature stands on a set that is open or flagged', () => {
    fc.assert(
      fc.property(historyArbitrary, (moves) => {
        live(moves, (_before, _events, after) => {
          for (const step of after.plan?.steps ?? [])
            for (const view of setViews(after as PlannedJob, step))
              if (view.state.first || view.state.second)
                expect(view).toMatchObject({ open: [], flagged: [], final: true })
        })
      }),
      runs,
    )
  })

  test('[SS6] [SS7] [SS8] a second signature is another person’s, after a first, on no reading of theirs', () => {
    fc.assert(
      fc.property(historyArbitrary, (moves) => {
        live(moves, (before, events, after) => {
          for (const event of events) {
            if (event.type !== 'StepSecondSigned') continue
            const step = before.plan?.steps.find(({ id }) => id === event.stepId)
            const view =
              step && setViews(before as PlannedJob, step).find(({ set }) => set.id === event.setId)
            expect(view?.state.first).toBeDefined()
            expect(view?.state.first?.by).not.toBe(event.by)
            const theirs = view?.set.covers.flatMap(({ joint, positions }) =>
              (after.readings[joint] ?? []).filter(
                (r) =>
                  positions.includes(r.position) &&
                  r.by === event.by &&
                  !r.struck &&
                  !r.superseded &&
                  r.how !== 'slackened',
              ),
            )
            expect(theirs).toEqual([])
            expect(['ana', 'bo', 'dee']).toContain(event.by)
          }
        })
      }),
      runs,
    )
  })

  test('[FW3] every reading, measurement and scale entry ever made is still there, as it was entered', () => {
    fc.assert(
      fc.property(historyArbitrary, (moves) => {
        const { job, events } = live(moves)
        const readings = Object.values(job.readings).flat()
        const measured = Object.values(job.steps).flatMap((step) => step.measurements)
        const kept = (list: { struck?: unknown; superseded?: unknown }[]) =>
          list.map(({ struck: _, superseded: __, ...rest }) => rest)
        const made = (type: JobEvent['type']) =>
          events.filter((event) => event.type === type).map(({ type: _, ...rest }) => rest)
        const sorted = (list: unknown[]) =>
          (list as { id: string }[]).toSorted((a, b) => a.id.localeCompare(b.id))
        expect(sorted(kept(readings))).toEqual(sorted(made('ReadingTaken')))
        expect(sorted(kept(measured))).toEqual(sorted(made('MeasurementTaken')))
        expect(job.scaleLog).toEqual(made('ScaleEntered'))
        expect(new Set(readings.map(({ id }) => id)).size).toBe(readings.length)
      }),
      runs,
    )
  })

  test('[RD21] at most one reading stands for a fastener in a pass', () => {
    fc.assert(
      fc.property(historyArbitrary, (moves) => {
        const standing = Object.values(live(moves).job.readings)
          .flat()
          .filter((reading) => !reading.struck && !reading.superseded)
          // Taking a fastener back is no reading of a pass: it stands beside whatever comes after.
          .filter(({ how, jointId, pass }) => how !== 'slackened' || slackenPass(jointId, pass))
          .map(({ jointId, position, pass }) => `${jointId} ${position} ${pass}`)
        expect(standing.toSorted()).toEqual([...new Set(standing)].toSorted())
      }),
      runs,
    )
  })

  test('[SG3] [SS4] [CL2] the same word twice by the same hand gives nothing', () => {
    const idempotent: JobCommand['type'][] = [
      'SignStep',
      'SecondSignStep',
      'ClaimStep',
      'PutDownStep',
      'AnswerGate',
    ]
    fc.assert(
      fc.property(historyArbitrary, (moves) => {
        live(moves, (_before, events, after, move, command) => {
          if (events.length === 0 || !idempotent.includes(command.type)) return
          expect(decide(after, command, contextFor(after, move, 9000, 2000))).toEqual([])
        })
      }),
      runs,
    )
  })

  test('[VW10] [VW11] [VW12] summary, reason and record agree with where each step stands', () => {
    fc.assert(
      fc.property(historyArbitrary, (moves) => {
        live(moves, (_before, _events, after) => agrees(after as PlannedJob))
      }),
      { numRuns: 60 },
    )
  })

  test('the histories are worth the name: everything gets done and flagged in them', () => {
    const seen = {
      events: new Set<string>(),
      flags: new Set<string>(),
      late: 0,
      done: 0,
      nothing: 0,
    }
    fc.assert(
      fc.property(historyArbitrary, (moves) => {
        const { job, events, nothing } = live(moves)
        for (const event of events) {
          seen.events.add(event.type)
          if (event.type === 'ReadingTaken') for (const flag of event.flags) seen.flags.add(flag)
          if (event.type === 'StepSecondSigned' && event.late) seen.late++
        }
        seen.done += job.plan?.steps.filter((step) => isDone(job as PlannedJob, step)).length ?? 0
        seen.nothing += nothing
      }),
      { numRuns: 500, seed: 20301 },
    )
    expect([...kindsOf(FLAGS)].filter((flag) => !seen.flags.has(flag))).toEqual([])
    expect(seen.events.size).toBeGreaterThan(11)
    // What is refused, code by code and by every command: properties-floor.test.ts.
    expect(seen.late).toBeGreaterThan(0)
    expect(seen.done).toBeGreaterThan(50)
    expect(seen.nothing).toBeGreaterThan(100)
  })
})

const slackenPass = (jointId: string, pass: number): boolean =>
  testPlan.steps.some(({ joints }) =>
    joints.some(({ id, passes }) => id === jointId && passes[pass - 1]?.kind === 'slacken'),
  )

/** Board, reason and record are views of one thing and must not contradict each other. */
function agrees(job: PlannedJob): void {
  const summary = summarise(job)
  const reason = reasonFor(job)
  expect(summary.reason).toEqual(reason)
  expect(badWords(reasonSentence(reason, words))).toBeNull()
  const standings = job.plan.steps.map((step) => standingOf(job, step))
  expect(summary.cells.map(({ standing }) => standing)).toEqual(standings)
  expect(summary.cells.some(({ flagged }) => flagged)).toBe(flaggedReadings(job).length > 0)
  if (reason.code === 'all_signed') expect(standings.every((standing) => standing === 'done')).toBe(true)
  if (reason.code === 'in_work') expect(standings).toContain('in_work')
  if (reason.code === 'nobody_on_it') {
    expect(standings).toContain('ready')
    expect(standings).not.toContain('in_work')
  }
  if (reason.code === 'flagged') expect(flaggedReadings(job).length).toBeGreaterThan(0)
  if (flaggedReadings(job).length > 0) expect(['flagged', 'second_late']).toContain(reason.code)

  const lines = record(job)
  const counted = Object.values(completeness(job)).reduce((sum, one) => sum + one.fasteners, 0)
  expect(counted).toBe(lines.filter(({ recheckOf }) => recheckOf === undefined).length)
  for (const [index, step] of job.plan.steps.entries())
    if (standings[index] === 'done')
      expect(lines.filter(({ stepId, verdict }) => stepId === step.id && verdict !== 'proven')).toEqual([])
  const waiting = signBeforeHidden(job)
  const awaitingSecond = job.plan.steps
    .filter((_, index) => standings[index] === 'awaiting_second')
    .map(({ id }) => id)
  expect(waiting.filter(({ awaits }) => awaits === 'second').map(({ step }) => step.id)).toEqual(
    expect.arrayContaining(awaitingSecond),
  )
  expect(unpublished(job)).toHaveLength(1)
  for (const { entry } of unitSlips(job)) expect(entry.slip).toBeDefined()
}

describe('every refusal', () => {
  test('[FW9] has a sentence fit to read, whoever it names', () => {
    expect(REFUSAL_CODES.length).toBeGreaterThan(70)
    for (const code of REFUSAL_CODES) {
      const anything = new Proxy({}, { get: (_, key) => sample(String(key), code) })
      const said = sentenceFor({ refused: code, data: anything }, words)
      expect(said.length, code).toBeGreaterThan(20)
      expect(badWords(said), code).toBeNull()
    }
    expect(sentenceFor({ refused: 'from_tomorrow', data: {} }, words)).toContain('from_tomorrow')
  })
})

/** A value of the kind each refusal's data holds under that name. */
function sample(key: string, code: string): unknown {
  if (key === 'what' && code === 'deferrals_due') return ['Housing bolt 7']
  if (key === 'kind') return code === 'on_hold' ? 'part' : 'to_owner'
  if (key === 'against') return [{ code: 'not_signed', stepId: 'B1', title: 'Bearings' }]
  if (key === 'reasons') return [not('not_a_clamp', { fastener: 'plug' })]
  if (key === 'judged') return judgeTorque({ thread: 'M8x1.25', grade: '8.8', nominalNm: 60 })
  if (key === 'fault') return 'temporary'
  if (key === 'state') return 'late'
  if (key === 'why') return 'class_a'
  if (key === 'open') return [1, 2]
  if (
    ['until', 'expectedAt', 'from', 'torqueNm', 'minNm', 'maxNm', 'ceilingNm', 'counted', 'minutes'].includes(
      key,
    )
  )
    return 5
  if (key === 'positions') return [1, 2, 3]
  if (key === 'roles') return ['supervisor', 'owner']
  if (key === 'sets' || key === 'places') return ['one', 'two']
  if (key === 'needs') return [{ id: 'B1', title: 'Bearings' }]
  if (key === 'behind') return [{ joint: 'J1', title: 'Head bolts', fastener: 'bolt', positions: [1, 2] }]
  if (key === 'flags') return ['out_of_band']
  return ['edition', 'position', 'pass', 'passes', 'since', 'wished', 'at', 'value', 'min', 'max'].includes(
    key,
  )
    ? 3
    : 'something'
}
