/**
 * A small engine for the pages' tests: two people, one dial wrench, five steps, played through the real `decide`.
 *
 * A test states only what happens; a refusal throws, so that a wrong story fails where it is told.
 */
import type { JobCommand } from '../../shared/job/commands'
import { decide } from '../../shared/job/decide'
import type { JobEvent } from '../../shared/job/events'
import { evolveAll, newJob } from '../../shared/job/evolve'
import type { Job, PlannedJob } from '../../shared/job/types'
import { isRefusal, type StreamEvent } from '../../shared/log'
import { indexPlan } from '../../shared/plan/read'
import type { AdoptedStep, Joint, Plan } from '../../shared/plan/types'
import type { Shop } from '../../shared/shop/types'
import type { Words } from '../../shared/words'
import { uuid } from './ids'
import { person } from './people'
import { joint as anyJoint, plan as anyPlan, step } from './plan'
import { shopOf } from './shop'
import { MINUTE, START } from './time'
import { figures } from './words'
import { wrench } from './wrenches'

export const words: Words = {
  ...figures,
  person: (id) => shop.people[id]?.name ?? id,
  moment: (at) => `+${(at - START) / MINUTE} min`,
  date: (day) => day,
}

const dial = wrench('TW-1', { kind: 'indicating', title: 'long one', min: 20, max: 200 })

export const shop: Shop = shopOf({
  people: [
    person('bram', { initials: 'BT', roles: ['technician', 'supervisor'] }),
    person('suvi', { initials: 'SH', paint: 'green' }),
  ],
  wrenches: [dial, { ...dial, id: 'LB-1', unit: 'lbf·ft' }],
})

export const joint = (
  id: string,
  title: string,
  count: number,
  torqueNm: (number | null)[],
  some: Partial<Joint> = {},
): Joint =>
  anyJoint(id, {
    title,
    thread: 'M10x1.25',
    grade: '10.9',
    lengthMm: 30,
    lubrication: 'oil',
    positions: Array.from({ length: count }, (_, i) => ({ n: i + 1, x: i * 20, y: 0 })),
    passes: torqueNm.map((nm) => ({ kind: 'torque', torqueNm: nm })),
    ...some,
  })

export const plan: Plan = anyPlan({
  title: 'Small engine',
  stages: [
    { id: 'S', title: 'Short block' },
    { id: 'C', title: 'Closing' },
  ],
  steps: [
    step('S1', {
      stage: 'S',
      title: 'Main caps',
      signatures: 2,
      joints: [
        joint('J-cap', 'Main cap bolts', 2, [50, 100], {
          class: 'A',
          positions: [
            { n: 1, x: 0, y: 0, label: '1A' },
            { n: 2, x: 20, y: 0, label: '2A' },
          ],
        }),
      ],
    }),
    step('S2', {
      stage: 'S',
      title: 'Rod caps',
      signatures: 2,
      joints: [joint('J-rod', 'Rod cap bolts', 4, [40], { class: 'A' })],
      sets: [
        { id: 'cap-1', title: 'Rod cap 1', covers: [{ joint: 'J-rod', positions: [1, 2] }] },
        { id: 'cap-2', title: 'Rod cap 2', covers: [{ joint: 'J-rod', positions: [3, 4] }] },
      ],
    }),
    step('S3', {
      stage: 'S',
      title: 'Measure',
      kind: 'measure',
      measurements: [{ id: 'float', title: 'End float', unit: 'mm', places: ['crank'], min: 0.1, max: 0.25 }],
    }),
    step('C1', {
      stage: 'C',
      title: 'Sump',
      needs: ['S3'],
      hides: [{ joint: 'J-cap' }, { joint: 'J-rod', positions: [1, 2] }],
      joints: [joint('J-sump', 'Sump bolts', 3, [20])],
    }),
    step('C2', { stage: 'C', title: 'Plug', joints: [joint('J-plug', 'Bronze plug', 1, [null])] }),
  ],
})

export type Move = [by: string, command: JobCommand]

export interface Told {
  job: PlannedJob
  events: StreamEvent<JobEvent>[]
}

/** On the small engine: a minute apart; the job is opened and the plan adopted first. */
export const tell = (...moves: Move[]): Told => tellOn(plan, moves)

/** The hash of the log is a word that names its length. */
export function tellOn(plan: Plan, moves: Move[]): Told {
  const engine = { model: 'Small', serial: '1' }
  const opening: Move[] = [
    ['bram', { type: 'OpenJob', number: 'E-1', engine, owner: 'Owner', agreed: 'rebuild' }],
    ['bram', { type: 'AdoptPlan', planId: plan.id, edition: plan.edition }],
  ]
  let job: Job = newJob('j1')
  const events: StreamEvent<JobEvent>[] = []
  for (const [index, [by, command]] of [...opening, ...moves].entries()) {
    const doneAt = START + index * MINUTE
    const outcome = decide(job, command, {
      shop: { ...shop, plans: { [plan.id]: { [plan.edition]: plan } } },
      by,
      doneAt,
      commandId: uuid(index + 1),
      through: 'sign_in',
      head: `hash-of-${events.length}`,
    })
    if (isRefusal(outcome))
      throw new Error(`${by} ${command.type} was refused: ${outcome.refused} ${JSON.stringify(outcome.data)}`)
    for (const event of outcome) events.push({ version: events.length + 1, recordedAt: doneAt, event })
    job = evolveAll(job, outcome)
  }
  return { job: job as PlannedJob, events }
}

export const claim = (by: string, stepId: string): Move => [by, { type: 'ClaimStep', stepId }]
export const sign = (by: string, stepId: string, setId?: string): Move => [
  by,
  { type: 'SignStep', stepId, setId },
]
export const second = (by: string, stepId: string, setId?: string): Move => [
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
): Move => [by, { type: 'TakeReading', jointId, position, pass, how: 'indicated', wrenchId, value }]
/** The main caps tightened by Bram, both passes. */
export const caps: Move[] = [
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
