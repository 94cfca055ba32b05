/**
 * Engines brought into rare states over HTTP: what would take people an afternoon on the pages, or a wait no test
 * should make. On the small shop of `small-shop.ts`, with an edition of its plan that asks for a little more.
 */
import { randomUUID } from 'node:crypto'
import type { Plan } from '../../shared/plan/types'
import { command } from './hands'
import type { Device } from './harness'
import { SMALL_PLAN } from './small-shop'

/** The stand asks for two; the cover hides it without needing it, and is sealed. */
export const STATES_PLAN: Plan = {
  ...SMALL_PLAN,
  edition: 2,
  steps: SMALL_PLAN.steps.map((step) => {
    if (step.id === 'A2') return { ...step, signatures: 2 as const }
    if (step.id !== 'B1') return step
    const sealant = { product: 'flange sealant', closeWithinMinutes: 10, cureMinutes: 60, before: ['C1'] }
    return { ...step, needs: ['A1'], sealant }
  }),
}

export const MINUTE = 60_000

/** Everybody's device, signed in. */
export interface Hands {
  ada: Device
  tom: Device
  ines: Device
}

let made = 0

/** Opened and adopted; answers with the job's id. */
export async function newEngine({ ada }: Hands): Promise<string> {
  const jobId = randomUUID()
  await command(ada, jobId, {
    type: 'OpenJob',
    number: `Z-${++made}`,
    engine: { model: 'Harrow R2', serial: `R2-${100 + made}` },
    owner: 'Saltings Ferry',
    agreed: 'Head off, valves ground in',
  })
  await command(ada, jobId, { type: 'AdoptPlan', planId: STATES_PLAN.id, edition: STATES_PLAN.edition })
  return jobId
}

/** Scale, then these positions, in one pass. */
export async function tighten(
  by: Device,
  jobId: string,
  jointId: string,
  {
    pass = 1,
    value,
    at,
    wrenchId = 'TW-1',
  }: { pass?: number; value: number; at: number[]; wrenchId?: string },
): Promise<void> {
  await command(by, jobId, { type: 'EnterScale', jointId, pass, wrenchId, value })
  for (const position of at)
    await command(by, jobId, { type: 'TakeReading', jointId, position, pass, how: 'clicked', wrenchId })
}

export async function headDone({ tom, ines }: Hands, jobId: string): Promise<void> {
  await command(ines, jobId, { type: 'ClaimStep', stepId: 'A1' })
  await tighten(ines, jobId, 'H-A1', { value: 30, at: [1, 3, 2, 4] })
  await tighten(ines, jobId, 'H-A1', { pass: 2, value: 60, at: [1, 3, 2, 4] })
  await command(ines, jobId, { type: 'SignStep', stepId: 'A1' })
  await command(tom, jobId, { type: 'SecondSignStep', stepId: 'A1' })
}

/** `signedAt`: when its doer signed, for who waits until they may look again. */
export async function standSigned({ tom }: Hands, jobId: string, signedAt?: number): Promise<void> {
  await command(tom, jobId, { type: 'ClaimStep', stepId: 'A2' })
  await tighten(tom, jobId, 'H-A2', { value: 22, at: [1, 2] })
  await command(tom, jobId, { type: 'SignStep', stepId: 'A2', ...(signedAt ? { doneAt: signedAt } : {}) })
}

const PHOTO = { bytes: 12_000, mime: 'image/jpeg', widthPx: 800, heightPx: 600 } as const

/** The fact alone: its bytes never come from here. */
export const photoOnItsWay = (by: Device, jobId: string): Promise<void> =>
  command(by, jobId, {
    type: 'AddPhoto',
    photo: {
      ...PHOTO,
      id: randomUUID(),
      sha256: 'a'.repeat(64),
      stepId: 'B1',
      gateId: 'cover',
      place: 'front',
    },
  })

/** Ready for the release to fitting but for its photo, which is accepted as missing. */
export async function closed(hands: Hands, jobId: string): Promise<void> {
  const { ada, tom, ines } = hands
  await headDone(hands, jobId)
  await standSigned(hands, jobId)
  await command(ines, jobId, { type: 'SecondSignStep', stepId: 'A2' })
  await command(ada, jobId, {
    type: 'SettleValue',
    jointId: 'H-B2',
    pass: 1,
    torqueNm: 25,
    minNm: 23,
    maxNm: 27,
    basis: { kind: 'word', competence: 'Ada Brook, fitter' },
    reason: 'As on the R1',
  })
  await command(tom, jobId, { type: 'ClaimStep', stepId: 'B2' })
  await tighten(tom, jobId, 'H-B2', { value: 25, at: [1] })
  await command(tom, jobId, { type: 'SignStep', stepId: 'B2' })
  const past = Date.now() - 3 * 60 * MINUTE
  await command(tom, jobId, { type: 'ClaimStep', stepId: 'B1' })
  await command(tom, jobId, { type: 'StartSealant', stepId: 'B1', doneAt: past })
  await tighten(tom, jobId, 'H-B1', { value: 8, at: [1, 2, 3, 4] })
  await command(tom, jobId, { type: 'CloseSealant', stepId: 'B1', doneAt: past + 5 * MINUTE })
  await command(tom, jobId, { type: 'SignStep', stepId: 'B1' })
  await command(ada, jobId, {
    type: 'Waive',
    what: { kind: 'gate', stepId: 'B1', gateId: 'cover' },
    reason: 'Looked at by both',
  })
}

export async function releasedToOwner(hands: Hands, jobId: string): Promise<void> {
  const { ada, tom } = hands
  await closed(hands, jobId)
  await command(ada, jobId, { type: 'Release', kind: 'to_fitting' })
  await command(tom, jobId, { type: 'ClaimStep', stepId: 'C1' })
  await command(tom, jobId, {
    type: 'TakeMeasurement',
    stepId: 'C1',
    measurementId: 'oil',
    place: 'hot idle',
    value: 2.4,
    instrument: 'pressure gauge',
  })
  await command(tom, jobId, { type: 'AnswerGate', stepId: 'C1', gateId: 'leaks' })
  await command(tom, jobId, { type: 'SignStep', stepId: 'C1' })
  await command(ada, jobId, { type: 'Release', kind: 'to_owner' })
}
