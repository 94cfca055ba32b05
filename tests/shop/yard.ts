/** A small shop to be sent to a server: two people, one wrench, a plan of two steps, one job. */
import type { JobCommand } from '../../shared/job/commands'
import type { Joint, Plan } from '../../shared/plan/types'
import type { ShopCommand, Wrench } from '../../shared/shop/types'
import { person } from './people'
import { joint as anyJoint, plan, planOf, positions, step } from './plan'
import { wrench } from './wrenches'

export const ANA = person('ana', { roles: ['supervisor', 'owner'] })
export const BO = person('bo')

const { lastCheckedAt, dueAt, ...undated } = wrench('W1', { title: 'Click wrench', max: 50 })
/** In date on whatever day the server's clock shows. */
export const W1: Wrench = undated

const joint = (id: string, some: Partial<Joint> = {}) =>
  anyJoint(id, {
    positions: positions(3),
    passes: [{ kind: 'torque', torqueNm: 20, wrench: 'W1' }],
    ...some,
  })

export const PLAN: Plan = planOf(
  step('S1', { joints: [joint('J1')] }),
  step('S2', { joints: [joint('J2', { class: 'A' })], signatures: 2 }),
)

/** A bead that must cure an hour before the next step. */
export const SEALED: Plan = plan({
  id: 'sealed',
  steps: [
    step('S1', { sealant: { product: 'Paste', closeWithinMinutes: 10, cureMinutes: 60, before: ['S2'] } }),
    step('S2', { needs: ['S1'] }),
  ],
})

/** The bead laid, closed and signed. */
export const sealedJob = (number: string): JobCommand[] => [
  { type: 'OpenJob', number, engine: { model: 'Small', serial: '1' }, owner: 'Somebody', agreed: 'All' },
  { type: 'AdoptPlan', planId: 'sealed', edition: 1 },
  { type: 'ClaimStep', stepId: 'S1' },
  { type: 'StartSealant', stepId: 'S1' },
  { type: 'CloseSealant', stepId: 'S1' },
  { type: 'SignStep', stepId: 'S1' },
]

export const openShop: ShopCommand[] = [
  { type: 'OpenShop', name: 'Test Yard', founder: ANA, invented: true },
  { type: 'AddPerson', person: BO },
  { type: 'AddWrench', wrench: W1 },
  { type: 'AddPlan', plan: PLAN },
]

export const openJob = (number = 'E-1'): JobCommand[] => [
  { type: 'OpenJob', number, engine: { model: 'Small', serial: '1' }, owner: 'Somebody', agreed: 'All' },
  { type: 'AdoptPlan', planId: 'small', edition: 1 },
]

/** The whole first step by one hand. */
export const stepOne: JobCommand[] = [
  { type: 'ClaimStep', stepId: 'S1' },
  { type: 'EnterScale', jointId: 'J1', pass: 1, wrenchId: 'W1', value: 20 },
  ...[1, 2, 3].map(
    (position) =>
      ({ type: 'TakeReading', jointId: 'J1', position, pass: 1, how: 'clicked', wrenchId: 'W1' }) as const,
  ),
  { type: 'SignStep', stepId: 'S1' },
]
