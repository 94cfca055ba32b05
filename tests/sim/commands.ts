/**
 * Every command there is, as somebody at a bench or in the office might give it now: mostly possible, not always allowed.
 * Whatever command is new does not compile until it has a line here.
 */
import type { CommandOf, JobCommand } from '../../shared/job/commands'
import type { PlannedJob } from '../../shared/job/types'
import { setViews, stepState } from '../../shared/job/verdicts'
import type { AdoptedStep } from '../../shared/plan/types'
import { presentIn } from '../../shared/shop/left'
import type { Shop, ShopCommand } from '../../shared/shop/types'
import { person } from '../shop/people'
import { floorPlan } from '../shop/plans/floor-engine'
import { answerOf, measured, photoOf, settleByWord } from '../shop/random/work'
import { DAY } from '../shop/time'
import { wrench } from '../shop/wrenches'
import { below, between, oneOf } from './world'

/** What it is chosen by: the job as the page shows it, who gives it, and a number no other has. */
export interface Scene {
  job: PlannedJob
  shop: Shop
  by: string
  count: number
  now: number
}

type ShopCommandOf<T extends ShopCommand['type']> = Extract<ShopCommand, { type: T }>

/** A step this person has claimed if there is one, as often as not. */
function aStep({ job, by }: Scene): AdoptedStep {
  const mine = job.plan.steps.filter(({ id }) => stepState(job, id).claim?.by === by)
  return oneOf(mine.length > 0 && below(4) > 0 ? mine : job.plan.steps)
}
function aJoint(scene: Scene) {
  const { joints } = aStep(scene)
  return oneOf(joints.length > 0 ? joints : scene.job.plan.steps.flatMap((step) => step.joints))
}
const aPosition = (joint: ReturnType<typeof aJoint>) => oneOf(joint.positions).n
const aSet = (scene: Scene) => {
  const step = aStep(scene)
  return { stepId: step.id, setId: oneOf(setViews(scene.job, step)).set.id }
}
const idOf = (list: readonly { id: string }[]) => (list.length > 0 ? oneOf(list).id : 'none')
const anyReading = ({ job }: Scene) => idOf(Object.values(job.readings).flat())
const entriesOf = ({ job }: Scene) => job.plan.steps.flatMap(({ id }) => stepState(job, id).measurements)

export const JOB_COMMANDS: { [T in JobCommand['type']]: (scene: Scene) => CommandOf<T> } = {
  OpenJob: ({ count }) => ({
    type: 'OpenJob',
    number: `S-${count}`,
    engine: { model: 'Test engine', serial: `${count}` },
    owner: 'An owner',
    agreed: 'Rebuild',
  }),
  AdoptPlan: () => ({ type: 'AdoptPlan', planId: floorPlan.id, edition: floorPlan.edition }),
  ClaimStep: (scene) => ({ type: 'ClaimStep', stepId: oneOf(scene.job.plan.steps).id, hidesKnowingly: true }),
  PutDownStep: (scene) => ({ type: 'PutDownStep', stepId: aStep(scene).id, note: 'later' }),
  HandOverStep: (scene) => ({
    type: 'HandOverStep',
    stepId: aStep(scene).id,
    to: oneOf(['ana', 'bo', 'cy']),
  }),
  EnterScale: (scene) => ({
    type: 'EnterScale',
    jointId: aJoint(scene).id,
    pass: 1,
    wrenchId: 'click',
    value: between(8, 40),
  }),
  TakeReading: (scene) => {
    const joint = aJoint(scene)
    const how = oneOf(['clicked', 'clicked', 'slackened'] as const)
    return {
      type: 'TakeReading',
      jointId: joint.id,
      position: aPosition(joint),
      pass: 1,
      how,
      wrenchId: 'click',
    }
  },
  CountRound: (scene) => {
    const joint = aJoint(scene)
    return {
      type: 'CountRound',
      jointId: joint.id,
      pass: 1,
      wrenchId: 'click',
      count: joint.positions.length,
    }
  },
  RestartRound: (scene) => {
    const joint = aJoint(scene)
    return { type: 'RestartRound', jointId: joint.id, position: aPosition(joint), how: 'again' }
  },
  StrikeReading: (scene) => ({ type: 'StrikeReading', readingId: anyReading(scene), reason: 'mistyped' }),
  PlaceFasteners: (scene) => {
    const joint = aJoint(scene)
    return { type: 'PlaceFasteners', jointId: joint.id, positions: [aPosition(joint)], condition: 'new' }
  },
  RecordHole: (scene) => {
    const joint = aJoint(scene)
    return { type: 'RecordHole', jointId: joint.id, position: aPosition(joint), condition: 'worn' }
  },
  TakeMeasurement: ({ job }) => {
    const steps = job.plan.steps.filter(({ measurements }) => measurements.length > 0)
    const step = steps.length > 0 ? oneOf(steps) : oneOf(job.plan.steps)
    const { id, places, max = 1 } = step.measurements[0] ?? { id: 'none', places: ['none'] }
    return measured(step.id, id, oneOf(places), max) as CommandOf<'TakeMeasurement'>
  },
  StrikeMeasurement: (scene) => ({
    type: 'StrikeMeasurement',
    entryId: idOf(entriesOf(scene)),
    reason: 'mistyped',
  }),
  StartSealant: ({ job }) => ({ type: 'StartSealant', stepId: sealedStep(job) }),
  CloseSealant: ({ job }) => ({ type: 'CloseSealant', stepId: sealedStep(job) }),
  AnswerGate: ({ job }) => {
    const step = job.plan.steps.find(({ gates }) => gates.length > 0) ?? oneOf(job.plan.steps)
    return answerOf(step, step.gates[0]?.id ?? 'none', 0) as CommandOf<'AnswerGate'>
  },
  TakeOff: (scene) => ({ type: 'TakeOff', stepId: aStep(scene).id }),
  NoteLook: (scene) => ({ type: 'NoteLook', ...aSet(scene), personId: oneOf(['bo', 'dee']) }),
  AddNote: ({ count }) => ({ type: 'AddNote', text: `note ${count}` }),
  AddPhoto: ({ count }) => ({ type: 'AddPhoto', photo: photoOf(`loose-${count}`) }),
  ConfirmPhoto: ({ job }) => ({ type: 'ConfirmPhoto', photoId: idOf(job.photos) }),
  SignStep: (scene) => ({ type: 'SignStep', ...aSet(scene) }),
  SecondSignStep: (scene) => ({ type: 'SecondSignStep', ...aSet(scene) }),
  RecheckOwnWork: (scene) => ({ type: 'RecheckOwnWork', ...aSet(scene) }),
  Defer: (scene) => ({
    type: 'Defer',
    what: { kind: 'step', stepId: aStep(scene).id },
    dueStepId: scene.job.plan.steps.at(-1)?.id ?? '',
    reason: 'the eye is there',
  }),
  WithdrawDeferral: ({ job }) => ({
    type: 'WithdrawDeferral',
    deferralId: idOf(job.deferrals),
    reason: 'after all',
  }),
  SettleValue: (scene) => settleByWord(aJoint(scene).id, 1, 12) as CommandOf<'SettleValue'>,
  Waive: (scene) => ({
    type: 'Waive',
    what: { kind: 'reading', readingId: anyReading(scene) },
    reason: 'seen',
  }),
  Release: () => ({ type: 'Release', kind: oneOf(['to_fitting', 'to_owner']) }),
  OpenWarranty: () => ({ type: 'OpenWarranty', complaint: 'weeps' }),
  CloseWarranty: () => ({ type: 'CloseWarranty', finding: 'a crushed seal' }),
  RaiseHold: (scene) => ({
    type: 'RaiseHold',
    kind: 'part',
    stepIds: [aStep(scene).id],
    what: `shim ${scene.count}`,
  }),
  ChangeHold: ({ job, now }) => ({ type: 'ChangeHold', holdId: idOf(job.holds), expectedAt: now + DAY }),
  ClearHold: ({ job }) => ({ type: 'ClearHold', holdId: idOf(job.holds), how: 'it came' }),
  PromiseDate: ({ now, count }) => ({
    type: 'PromiseDate',
    date: new Date(now + (count % 60) * DAY).toISOString().slice(0, 10),
    reason: 'the shim',
  }),
}
const sealedStep = (job: PlannedJob) =>
  (job.plan.steps.find(({ sealant }) => sealant) ?? oneOf(job.plan.steps)).id

export const SHOP_COMMANDS: { [T in ShopCommand['type']]: (scene: Scene) => ShopCommandOf<T> } = {
  OpenShop: () => ({ type: 'OpenShop', name: 'Another', founder: person('eve', { roles: ['owner'] }) }),
  AddPerson: ({ count }) => ({ type: 'AddPerson', person: person(`new-${count}`) }),
  ChangePerson: ({ shop, count }) => {
    const { fay } = shop.people
    return { type: 'ChangePerson', person: { ...(fay ?? person('fay')), name: `Fay ${count}` } }
  },
  LeaveShop: ({ shop }) => {
    // None of the hands: the morning goes on with them.
    const there = presentIn(shop).filter(({ id }) => id.startsWith('new-'))
    return { type: 'LeaveShop', personId: there.at(-1)?.id ?? 'new-none' }
  },
  AddWrench: ({ count }) => ({ type: 'AddWrench', wrench: wrench(`wrench-${count}`) }),
  ChangeWrench: ({ count }) => ({
    type: 'ChangeWrench',
    wrench: wrench('click', { title: `Click ${count}` }),
  }),
  SetTolerances: ({ shop }) => ({ type: 'SetTolerances', tolerances: shop.tolerances }),
  SetSelfRecheck: ({ count }) => ({
    type: 'SetSelfRecheck',
    selfRecheck: { allowed: true, afterMinutes: 10 + (count % 50) },
  }),
  AddPlan: ({ count }) => ({ type: 'AddPlan', plan: { ...floorPlan, id: `plan-${count}` } }),
}

/** A photo with its bytes, which travel apart from the command that tells of them. */
export const PHOTO = 'photo and its bytes'
/** Somebody else gives their PIN on this tablet, and it signs for them. */
export const BY_GRANT = 'second signature by PIN'
/** The same without signal: the PIN waits with its entry, sealed. */
export const SEALED = 'second signature by sealed PIN'

export type JobType = keyof typeof JOB_COMMANDS
export type ShopType = keyof typeof SHOP_COMMANDS
export type Kind = JobType | ShopType | typeof PHOTO | typeof BY_GRANT | typeof SEALED
export const KINDS: readonly Kind[] = [
  ...(Object.keys(JOB_COMMANDS) as JobType[]),
  ...(Object.keys(SHOP_COMMANDS) as ShopType[]),
  PHOTO,
  BY_GRANT,
  SEALED,
]
export const isShopType = (kind: Kind): kind is ShopType => Object.hasOwn(SHOP_COMMANDS, kind)
