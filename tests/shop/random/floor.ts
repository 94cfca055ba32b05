/**
 * The whole floor at random: every command, by people of every role, time going forward.
 *
 * A move is read against the job as it stands and played as a small scene: one tap, or a whole piece of work by
 * somebody who knows the trade, broken off anywhere. So engines do get released, come back under warranty and are
 * disturbed again, and shrinking still works. `random.ts` draws the wild taps; this asks for all the rest.
 */
import fc from 'fast-check'
import type { Context } from '../../../shared/job/context'
import type { Job, PlannedJob } from '../../../shared/job/types'
import { isDone, stepState } from '../../../shared/job/verdicts'
import type { Plan, PlanStep } from '../../../shared/plan/types'
import type { Shop } from '../../../shared/shop/types'
import { uuid } from '../ids'
import { floorPlan } from '../plans/floor-engine'
import { testShop } from '../shop'
import { START } from '../time'
import { type FloorMove, KINDS } from './floor-move'
import { pick } from './moves'
import { taps } from './taps'
import { type Asked, finishAll, getOn, type Scene } from './work'

export interface History {
  planId: string
  /** Minutes after which a doer's own second look counts, where the shop takes it. */
  recheckAfter: number | undefined
  moves: FloorMove[]
}

const hands = ['ana', 'ana', 'ana', 'bo', 'bo', 'cy', 'dee', 'dee', 'wim', 'stranger']

const floorMove: fc.Arbitrary<FloorMove> = fc.record({
  who: fc.constantFrom(...hands),
  kind: fc.constantFrom(...KINDS),
  a: fc.nat(1000),
  b: fc.nat(1000),
  value: fc.double({ min: 0, max: 1_000_000, noNaN: true }),
  minutes: fc.nat(40),
  grant: fc.boolean(),
})

export const floorHistory: fc.Arbitrary<History> = fc.record({
  planId: fc.constantFrom('floor-engine', 'covered-engine', 'test-engine'),
  recheckAfter: fc.constantFrom(undefined, 30, 30),
  moves: fc.array(floorMove, { minLength: 1, maxLength: 110, size: 'max' }),
})

/** The floor's plan with a cover that has no fasteners of its own. */
const guard: PlanStep = {
  id: 'guard',
  stage: 'build',
  title: 'Step guard',
  kind: 'fit',
  needs: [],
  hides: [{ joint: 'JS' }],
  minutes: { low: 5, likely: 10, high: 20 },
  signatures: 1,
  joints: [],
  measurements: [],
  parts: [],
  gates: [{ id: 'seated', kind: 'look', text: 'It sits all round' }],
}
const coveredPlan: Plan = {
  ...floorPlan,
  id: 'covered-engine',
  steps: floorPlan.steps.flatMap((step) => (step.id === 'closing' ? [guard, step] : [step])),
}
const plans = { ...testShop.plans, [coveredPlan.id]: { [coveredPlan.edition]: coveredPlan } }

export const shopOfHistory = ({ recheckAfter }: History): Shop =>
  recheckAfter === undefined
    ? { ...testShop, plans }
    : { ...testShop, plans, selfRecheck: { allowed: true, afterMinutes: recheckAfter } }

/** Plays one move: hands out what is asked, takes the job as it is after it. */
export function* play(start: Job, move: FloorMove, planId: string, now: number): Scene {
  const { who: by, a, b } = move
  if (start.version === 0) {
    if (a % 4 === 0) yield { by, command: { type: 'AddNote', text: 'too soon' } }
    const taken = b % 5 === 0 ? { numberTaken: () => true } : {}
    const engine = { model: 'Test engine', serial: 'T-1' }
    const open = { type: 'OpenJob', number: 'E-1', engine, owner: 'An owner', agreed: 'Rebuild' } as const
    yield { by: a % 2 === 0 ? 'wim' : by, command: open, ...taken }
    return
  }
  if (!start.plan) {
    if (a % 4 === 0) yield { by, command: { type: 'ClaimStep', stepId: 'rods' } }
    const edition = b % 6 === 0 ? 2 : 1
    yield { by: a % 3 === 0 ? by : 'dee', command: { type: 'AdoptPlan', planId, edition } }
    return
  }
  const job = start as PlannedJob
  const { steps } = job.plan
  const mine = steps.filter(({ id }) => stepState(job, id).claim?.by === by)
  const begun = steps.filter((step) => !isDone(job, step))
  const step = pick(b % 3 === 0 ? steps : mine, a) ?? pick(begun, b) ?? pick(steps, b)
  if (!step) return
  switch (move.kind) {
    case 'get on':
      yield* getOn(job, move)
      return
    case 'finish all':
      yield* finishAll(job, move)
      return
    case 'wait':
      yield { by, command: { type: 'PutDownStep', stepId: 'none' }, after: 60 * (a % 30) }
      return
    default: {
      for (const asked of taps(job, step, move, now)) yield asked
    }
  }
}

/** What is asked, and when: minutes after the start. */
interface Moment {
  asked: Asked
  context: Context
  at: number
}

/** Plays a whole history: hands out what is asked, takes the job as it is after it, and ends with the minutes gone by. */
export function* playAll(history: History, start: Job): Generator<Moment, number, Job> {
  const shop = shopOfHistory(history)
  let job = start
  let at = 0
  let count = 1
  for (const move of history.moves) {
    at += move.minutes
    const scene = play(job, move, history.planId, START + at * 60_000)
    for (let next = scene.next(); !next.done; next = scene.next(job)) {
      const asked = next.value
      at += asked.after ?? 0
      job = yield { asked, context: contextOfAsked(asked, shop, count++, at), at }
    }
  }
  return at
}

/** What is asked at a moment, as `decide` wants it. */
export const contextOfAsked = (asked: Asked, shop: Shop, count: number, at: number): Context => {
  const { command: _, after: __, ...rest } = asked
  return { shop, commandId: uuid(count), through: 'sign_in', ...rest, doneAt: START + at * 60_000 }
}
