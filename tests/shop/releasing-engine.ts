/** The small engine with a plan that ends in releases. */
import type { Plan } from '../../shared/plan/types'
import { plan as anyPlan, step } from './plan'
import { claim, joint, type Move, read, second, sign, type Told, tellOn } from './small-engine'
import { DAY, START } from './time'

export const LATER = START + 30 * DAY

export const plan: Plan = anyPlan({
  id: 'releasing',
  title: 'Small engine',
  stages: [
    { id: 'S', title: 'Short block', releases: 'to_fitting' },
    { id: 'K', title: 'Aboard', releases: 'to_owner' },
  ],
  steps: [
    step('R1', {
      stage: 'S',
      title: 'Cap',
      signatures: 2,
      joints: [joint('JR1', 'Cap bolt', 1, [50], { class: 'A' })],
    }),
    step('R2', {
      stage: 'S',
      title: 'Plug',
      joints: [joint('JR2', 'Bronze plug', 1, [null], { class: 'A' })],
    }),
    step('R3', { stage: 'K', title: 'Mount', joints: [joint('JR3', 'Mount bolt', 1, [60], { class: 'A' })] }),
  ],
})

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

export const releasable = (...moves: Move[]): Told => tellOn(plan, moves)
