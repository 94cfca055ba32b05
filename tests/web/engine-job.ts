/**
 * A small engine for the page tests: two people, one click wrench, five steps, played through the real `decide`.
 *
 * A test states only what happens; a refusal throws, so that a wrong story fails where it is told.
 */
import type { JobCommand } from '../../shared/job/commands'
import type { Context } from '../../shared/job/context'
import { decide } from '../../shared/job/decide'
import type { JobEvent } from '../../shared/job/events'
import { evolveAll, newJob } from '../../shared/job/evolve'
import type { Job, PlannedJob } from '../../shared/job/types'
import { isRefusal, type StreamEvent } from '../../shared/log'
import { indexPlan } from '../../shared/plan/read'
import type { AdoptedStep, Joint, Plan, PlanStep } from '../../shared/plan/types'
import { newShop } from '../../shared/shop/evolve'
import type { Person, Shop, Wrench } from '../../shared/shop/types'
import type { Words } from '../../shared/words'

export const START = Date.UTC(2026, 10, 24, 7, 0)
export const words: Words = {
  person: (id) => ({ bram: 'Bram', suvi: 'Suvi' })[id] ?? id,
  moment: (at) => `+${(at - START) / 60_000} min`,
}

const everything = { classes: ['A' as const, 'B' as const, 'C' as const], families: [] }
const person = (id: string, initials: string, roles: Person['roles']): Person => ({
  id,
  name: words.person(id),
  initials,
  paint: id === 'bram' ? 'blue' : 'green',
  roles,
  mayDo: everything,
  maySecondSign: everything,
})
const wrench: Wrench = {
  id: 'TW-1',
  kind: 'indicating',
  title: 'long one',
  unit: 'N·m',
  min: 20,
  max: 200,
  state: 'in_service',
  lastCheckedAt: START - 86_400_000,
}

export const shop: Shop = {
  ...newShop(),
  opened: true,
  people: {
    bram: person('bram', 'BT', ['technician', 'supervisor']),
    suvi: person('suvi', 'SH', ['technician']),
  },
  wrenches: { 'TW-1': wrench, 'LB-1': { ...wrench, id: 'LB-1', unit: 'lbf·ft' } },
}

const joint = (
  id: string,
  title: string,
  cls: Joint['class'],
  count: number,
  torqueNm: (number | null)[],
): Joint => ({
  id,
  title,
  fastener: 'bolt',
  thread: 'M10x1.25',
  grade: '10.9',
  lengthMm: 30,
  lubrication: 'oil',
  class: cls,
  use: { kind: 'reusable' },
  positions: Array.from({ length: count }, (_, i) => ({
    n: i + 1,
    x: i * 20,
    y: 0,
    ...(id === 'J-cap' ? { label: `${i + 1}A` } : {}),
  })),
  passes: torqueNm.map((nm) => ({ kind: 'torque', torqueNm: nm })),
  interruption: { torqueOnly: 'restart_pass' },
})
const step = (id: string, stage: string, title: string, more: Partial<PlanStep>): PlanStep => ({
  id,
  stage,
  title,
  kind: 'tighten',
  needs: [],
  hides: [],
  minutes: { low: 10, likely: 20, high: 30 },
  signatures: 1,
  joints: [],
  measurements: [],
  parts: [],
  gates: [],
  ...more,
})

export const plan: Plan = {
  format: 'paintmark-plan/1',
  id: 'small',
  edition: 1,
  title: 'Small engine',
  family: 'diesel',
  source: 'made up for this test',
  invented: true,
  stages: [
    { id: 'S', title: 'Short block' },
    { id: 'C', title: 'Closing' },
  ],
  steps: [
    step('S1', 'S', 'Main caps', {
      signatures: 2,
      joints: [joint('J-cap', 'Main cap bolts', 'A', 2, [50, 100])],
    }),
    step('S2', 'S', 'Rod caps', {
      signatures: 2,
      joints: [joint('J-rod', 'Rod cap bolts', 'A', 4, [40])],
      sets: [
        { id: 'cap-1', title: 'Rod cap 1', covers: [{ joint: 'J-rod', positions: [1, 2] }] },
        { id: 'cap-2', title: 'Rod cap 2', covers: [{ joint: 'J-rod', positions: [3, 4] }] },
      ],
    }),
    step('S3', 'S', 'Measure', {
      kind: 'measure',
      measurements: [{ id: 'float', title: 'End float', unit: 'mm', places: ['crank'], min: 0.1, max: 0.25 }],
    }),
    step('C1', 'C', 'Sump', {
      needs: ['S3'],
      hides: [{ joint: 'J-cap' }, { joint: 'J-rod', positions: [1, 2] }],
      joints: [joint('J-sump', 'Sump bolts', 'B', 3, [20])],
    }),
    step('C2', 'C', 'Plug', { joints: [joint('J-plug', 'Bronze plug', 'B', 1, [null])] }),
  ],
}

export interface Told {
  job: PlannedJob
  events: StreamEvent<JobEvent>[]
}

/** `['bram', command]`, a minute apart; the job is opened and the plan adopted first. */
export function tell(...moves: [by: string, command: JobCommand][]): Told {
  let job: Job = newJob('j1')
  const events: StreamEvent<JobEvent>[] = []
  const all: [string, JobCommand][] = [
    [
      'bram',
      {
        type: 'OpenJob',
        number: 'E-1',
        engine: { model: 'Small', serial: '1' },
        owner: 'Owner',
        agreed: 'rebuild',
      },
    ],
    ['bram', { type: 'AdoptPlan', planId: 'small', edition: 1 }],
    ...moves,
  ]
  all.forEach(([by, command], index) => {
    const doneAt = START + index * 60_000
    const context: Context = {
      shop: { ...shop, plans: { small: { 1: plan } } },
      by,
      doneAt,
      commandId: `00000000-0000-7000-8000-${(index + 1).toString(16).padStart(12, '0')}`,
      through: 'sign_in',
    }
    const outcome = decide(job, command, context)
    if (isRefusal(outcome)) throw new Error(`${by} ${command.type} was refused: ${outcome.refused}`)
    for (const event of outcome) events.push({ version: events.length + 1, recordedAt: doneAt, event })
    job = evolveAll(job, outcome)
  })
  return { job: job as PlannedJob, events }
}

export const claim = (by: string, stepId: string): [string, JobCommand] => [by, { type: 'ClaimStep', stepId }]
export const sign = (by: string, stepId: string, setId?: string): [string, JobCommand] => [
  by,
  { type: 'SignStep', stepId, setId },
]
export const second = (by: string, stepId: string, setId?: string): [string, JobCommand] => [
  by,
  { type: 'SecondSignStep', stepId, setId },
]
export const read = (
  by: string,
  jointId: string,
  position: number,
  pass: number,
  value: number,
  wrenchId = 'TW-1',
): [string, JobCommand] => [
  by,
  { type: 'TakeReading', jointId, position, pass, how: 'indicated', wrenchId, value },
]
/** The main caps tightened by Bram, both passes. */
export const caps: [string, JobCommand][] = [
  claim('bram', 'S1'),
  read('bram', 'J-cap', 1, 1, 50),
  read('bram', 'J-cap', 2, 1, 50),
  read('bram', 'J-cap', 1, 2, 100),
  read('bram', 'J-cap', 2, 2, 100),
]

export function stepOf(job: PlannedJob, id: string): AdoptedStep {
  const found = indexPlan(job.plan).stepById.get(id)
  if (!found) throw new Error(`The small engine has no step ${id}`)
  return found
}
