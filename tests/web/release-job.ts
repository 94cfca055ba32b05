/** The small engine with a plan that ends in releases, played through the real `decide`. */
import type { JobCommand } from '../../shared/job/commands'
import type { Context } from '../../shared/job/context'
import { decide } from '../../shared/job/decide'
import type { JobEvent } from '../../shared/job/events'
import { evolveAll, newJob } from '../../shared/job/evolve'
import type { Job, PlannedJob } from '../../shared/job/types'
import { isRefusal, type StreamEvent } from '../../shared/log'
import type { Plan, PlanStep } from '../../shared/plan/types'
import { claim, read, START, second, shop, sign, plan as small, type Told } from './engine-job'

type Move = [string, JobCommand]
export const LATER = START + 30 * 86_400_000

const joint = (id: string, title: string, torqueNm: number | null) => {
  const like = small.steps[0]?.joints[0]
  if (!like) throw new Error('The small engine has lost its caps.')
  return {
    ...like,
    id,
    title,
    positions: [{ n: 1, x: 0, y: 0 }],
    passes: [{ kind: 'torque' as const, torqueNm }],
  }
}
const step = (id: string, stage: string, title: string, more: Partial<PlanStep>): PlanStep => ({
  ...(small.steps[2] as PlanStep),
  measurements: [],
  kind: 'tighten',
  id,
  stage,
  title,
  ...more,
})

export const plan: Plan = {
  ...small,
  id: 'releasing',
  stages: [
    { id: 'S', title: 'Short block', releases: 'to_fitting' },
    { id: 'K', title: 'Aboard', releases: 'to_owner' },
  ],
  steps: [
    step('R1', 'S', 'Cap', { signatures: 2, joints: [joint('JR1', 'Cap bolt', 50)] }),
    step('R2', 'S', 'Plug', { joints: [joint('JR2', 'Bronze plug', null)] }),
    step('R3', 'K', 'Mount', { joints: [joint('JR3', 'Mount bolt', 60)] }),
  ],
}

export const settled: Move = [
  'bram',
  {
    type: 'SettleValue',
    jointId: 'JR2',
    pass: 1,
    torqueNm: 30,
    minNm: 28,
    maxNm: 32,
    basis: { kind: 'word', competence: 'Bram, fitter for thirty years' },
    reason: 'bronze in aluminium',
  },
]
/** Everything up to the bench proof; the first four leave the second look at the cap owed. */
export const released: Move[] = [
  settled,
  claim('suvi', 'R1'),
  read('suvi', 'JR1', 1, 1, 50),
  sign('suvi', 'R1'),
  second('bram', 'R1'),
  claim('bram', 'R2'),
  read('bram', 'JR2', 1, 1, 30),
  sign('bram', 'R2'),
]
export const release = (kind: 'to_fitting' | 'to_owner'): Move => ['bram', { type: 'Release', kind }]
/** What is left after the release to fitting. */
export const aboard: Move[] = [claim('suvi', 'R3'), read('suvi', 'JR3', 1, 1, 60), sign('suvi', 'R3')]

/** A minute apart; the hash of the log is a word that names its length. */
export function releasable(...moves: Move[]): Told {
  let job: Job = newJob('j1')
  const events: StreamEvent<JobEvent>[] = []
  const opening: Move[] = [
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
    ['bram', { type: 'AdoptPlan', planId: 'releasing', edition: 1 }],
  ]
  ;[...opening, ...moves].forEach(([by, command], index) => {
    const doneAt = START + index * 60_000
    const context: Context = {
      shop: { ...shop, plans: { releasing: { 1: plan } } },
      by,
      doneAt,
      commandId: `00000000-0000-7000-8000-${(index + 1).toString(16).padStart(12, '0')}`,
      through: 'sign_in',
      head: `hash-of-${events.length}`,
    }
    const outcome = decide(job, command, context)
    if (isRefusal(outcome))
      throw new Error(`${by} ${command.type} was refused: ${outcome.refused} ${JSON.stringify(outcome.data)}`)
    for (const event of outcome) events.push({ version: events.length + 1, recordedAt: doneAt, event })
    job = evolveAll(job, outcome)
  })
  return { job: job as PlannedJob, events }
}
