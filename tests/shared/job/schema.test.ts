/** What the schema lets in never makes the rules throw, and what the rules give is what the schema says. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import { decide } from '../../../shared/job/decide'
import { evolveAll } from '../../../shared/job/evolve'
import { jobCommandSchema, jobEventSchema } from '../../../shared/job/schema'
import type { Job } from '../../../shared/job/types'
import { isRefusal } from '../../../shared/log'
import { given } from '../../shop/given'
import { uuid } from '../../shop/ids'
import { commandsOf, contextFor, historyArbitrary } from '../../shop/random/moves'
import { contextOf } from '../../shop/run'
import { testShop } from '../../shop/shop'
import { headProven, headTurned } from '../../shop/stories'
import { crib } from '../../shop/wrenches'

const strange = ['constructor', '__proto__', 'none']
const name = (...known: string[]) => fc.constantFrom(...known, ...known, ...strange)
const number = fc.oneof(
  fc.double({ min: 0, max: 1e6, noNaN: true }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.constantFrom(0, 1e-320, 1, 30, 5000, 1e6),
)
const small = fc.nat(6)
const adapter = fc.record({ wrenchMm: number, adapterMm: number, angleDeg: number })
const some = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: undefined })

const anything = fc.record({
  type: fc.constantFrom(
    'EnterScale',
    'TakeReading',
    'TakeMeasurement',
    'AnswerGate',
    'SignStep',
    'SecondSignStep',
  ),
  stepId: name('caps', 'head', 'proof'),
  jointId: name('JC', 'JH', 'JR', 'JN'),
  position: small,
  pass: small,
  wrenchId: name(...Object.keys(crib)),
  how: fc.constantFrom('clicked', 'indicated', 'turned', 'slackened'),
  value: number,
  adapter: some(adapter),
  measurementId: name('gap', 'float'),
  place: name('cap 1', 'crank'),
  gateId: name('shells', 'turns'),
  setId: some(name('cap-1', 'step')),
  count: some(fc.nat()),
})

const fields: Record<string, string[]> = {
  EnterScale: ['jointId', 'pass', 'wrenchId', 'value', 'adapter'],
  TakeReading: ['jointId', 'position', 'pass', 'how', 'wrenchId', 'value'],
  TakeMeasurement: ['stepId', 'measurementId', 'place', 'value'],
  AnswerGate: ['stepId', 'gateId', 'count'],
  SignStep: ['stepId', 'setId'],
  SecondSignStep: ['stepId', 'setId'],
}

/** A message as it would come over the wire, of whatever the schema lets in. */
function accepted(drawn: Record<string, unknown> & { type: string }): JobCommand | undefined {
  const own = (fields[drawn.type] ?? []).flatMap((key) =>
    drawn[key] === undefined ? [] : [[key, drawn[key]]],
  )
  const instrument = drawn.type === 'TakeMeasurement' ? { instrument: 'feeler' } : {}
  const sent = { type: drawn.type, commandId: uuid(7), ...Object.fromEntries(own), ...instrument }
  const { success, data } = jobCommandSchema.safeParse(sent)
  if (!success) return undefined
  const { commandId: _, ...command } = data as { commandId: string }
  return command as JobCommand
}

test('[FW7] no message the schema lets in makes a decision throw, or a number JSON cannot hold', () => {
  const jobs: Job[] = [given().job, given(headTurned()).job, given(headProven()).job]
  let entered = 0
  fc.assert(
    fc.property(anything, fc.constantFrom(...jobs), fc.constantFrom('ana', 'wim'), (drawn, job, by) => {
      const command = accepted(drawn)
      if (!command) return
      const outcome = decide(job, command, contextOf({ command, by }, 500, testShop))
      if (isRefusal(outcome)) return
      entered++
      for (const event of outcome) expect(jobEventSchema.safeParse(event).error?.issues).toBeUndefined()
    }),
    { numRuns: 4000 },
  )
  expect(entered).toBeGreaterThan(50)
})

test('[SC6] a lever of no length is no lever', () => {
  const sent = (wrenchMm: number) =>
    jobCommandSchema.safeParse({
      type: 'EnterScale',
      commandId: uuid(7),
      jointId: 'JH',
      pass: 1,
      wrenchId: 'click',
      value: 30,
      adapter: { wrenchMm, adapterMm: 100, angleDeg: 0 },
    }).success
  expect([1e-320, 0, 0.5, 1, 400].map(sent)).toEqual([false, false, false, true, true])
})

test('[FW8] every event a decision gives is one the schema knows, to the last field', () => {
  fc.assert(
    fc.property(historyArbitrary, (moves) => {
      let job: Job = given().job
      let count = 100
      for (const [index, move] of moves.entries())
        for (const command of commandsOf(job, move)) {
          const outcome = decide(job, command, contextFor(job, move, count++, index + 10))
          if (isRefusal(outcome)) continue
          for (const event of outcome) {
            const stored = JSON.parse(JSON.stringify(event)) as typeof event
            const read = jobEventSchema.safeParse(stored)
            if (namesSomething(stored)) expect(read.error?.issues ?? read.data).toEqual(stored)
          }
          job = evolveAll(job, outcome)
        }
    }),
    { numRuns: 40 },
  )
})

/** A command with an empty name never gets past the schema to a decision; the random people send some. */
const namesSomething = (event: object): boolean =>
  !Object.values(event).includes('') && !Object.hasOwn(event, '__proto__')
