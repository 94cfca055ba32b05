/** A small shop for server tests: two people, one wrench, a plan of two steps, one job, on a clock that stands still. */
import { v7 } from 'uuid'
import {
  type After,
  bodyHash,
  type Log,
  openDesk,
  type Reply,
  type StreamName,
  type Submission,
} from '../../server/desk'
import { type EventStore, memoryEventStore } from '../../server/store'
import type { JobCommand } from '../../shared/job/commands'
import type { JobSummary } from '../../shared/job/summary'
import type { Plan } from '../../shared/plan/types'
import type { Person, ShopCommand, Wrench } from '../../shared/shop/types'

export const NOON = Date.UTC(2026, 5, 2, 12)

export const silent: Log = { info() {}, warn() {}, error() {}, debug() {} }

const all = { classes: ['A' as const, 'B' as const, 'C' as const], families: [] }

export const person = (id: string, rest: Partial<Person> = {}): Person => ({
  id,
  name: id[0]?.toUpperCase() + id.slice(1),
  initials: id.slice(0, 2).toUpperCase(),
  paint: 'blue',
  roles: ['technician'],
  mayDo: all,
  maySecondSign: all,
  ...rest,
})

export const ANA = person('ana', { roles: ['supervisor', 'owner'] })
export const BO = person('bo')

export const wrench: Wrench = {
  id: 'W1',
  kind: 'click',
  title: 'Click wrench',
  unit: 'N·m',
  min: 5,
  max: 50,
  state: 'in_service',
}

const joint = (id: string, cls: 'A' | 'B'): Plan['steps'][number]['joints'][number] => ({
  id,
  title: `Bolts ${id}`,
  fastener: 'bolt',
  thread: 'M8',
  grade: '8.8',
  lubrication: 'dry',
  class: cls,
  use: { kind: 'reusable' },
  positions: [1, 2, 3].map((n) => ({ n, x: n * 10, y: 0 })),
  passes: [{ kind: 'torque', torqueNm: 20, wrench: 'W1' }],
  interruption: { torqueOnly: 'restart_pass' },
})

const step = (id: string, rest: Partial<Plan['steps'][number]>): Plan['steps'][number] => ({
  id,
  stage: 'A',
  title: `Step ${id}`,
  kind: 'tighten',
  needs: [],
  hides: [],
  minutes: { low: 1, likely: 2, high: 3 },
  signatures: 1,
  joints: [],
  measurements: [],
  parts: [],
  gates: [],
  ...rest,
})

export const PLAN: Plan = {
  format: 'paintmark-plan/1',
  id: 'small',
  edition: 1,
  title: 'A small plan',
  family: 'diesel',
  source: 'made up for tests',
  invented: true,
  stages: [{ id: 'A', title: 'All of it' }],
  steps: [
    step('S1', { joints: [joint('J1', 'B')] }),
    step('S2', { joints: [joint('J2', 'A')], signatures: 2 }),
  ],
}

/** A bead that must cure an hour before the next step. */
export const SEALED: Plan = {
  ...PLAN,
  id: 'sealed',
  steps: [
    step('S1', { sealant: { product: 'Paste', closeWithinMinutes: 10, cureMinutes: 60, before: ['S2'] } }),
    step('S2', { needs: ['S1'] }),
  ],
}

/** The bead laid, closed and signed. */
export const sealedJob = (number: string): JobCommand[] => [
  { type: 'OpenJob', number, engine: { model: 'Small', serial: '1' }, owner: 'Somebody', agreed: 'All' },
  { type: 'AdoptPlan', planId: 'sealed', edition: 1 },
  { type: 'ClaimStep', stepId: 'S1' },
  { type: 'StartSealant', stepId: 'S1' },
  { type: 'CloseSealant', stepId: 'S1' },
  { type: 'SignStep', stepId: 'S1' },
]

/** Time that passes only when a test says so: whatever is set for then is called, moment by moment. */
export function byHand(now: () => number, ahead: (ms: number) => void) {
  const waiting = new Set<{ at: number; call: () => void }>()
  const after: After = (ms, call) => {
    const timer = { at: now() + ms, call }
    waiting.add(timer)
    return () => waiting.delete(timer)
  }
  return {
    after,
    waiting,
    async pass(ms: number) {
      const end = now() + ms
      for (;;) {
        const [next] = [...waiting].filter(({ at }) => at <= end).sort((a, b) => a.at - b.at)
        if (!next) break
        waiting.delete(next)
        ahead(Math.max(0, next.at - now()))
        next.call()
        // What it sets going reads from a store: a turn of the event loop or two.
        for (let turns = 0; turns < 3; turns++) await new Promise((resolve) => setImmediate(resolve))
      }
      ahead(Math.max(0, end - now()))
    },
  }
}

export const openShop: ShopCommand[] = [
  { type: 'OpenShop', name: 'Test Yard', founder: ANA, invented: true },
  { type: 'AddPerson', person: BO },
  { type: 'AddWrench', wrench },
  { type: 'AddPlan', plan: PLAN },
]

export const openJob = (number = 'E-1'): JobCommand[] => [
  { type: 'OpenJob', number, engine: { model: 'Small', serial: '1' }, owner: 'Somebody', agreed: 'All' },
  { type: 'AdoptPlan', planId: 'small', edition: 1 },
]

export type Notice =
  | { events: string; from: number; types: string[]; sender?: string }
  | { summary: string; version: number; reason: string }
  | { answered: string; ok: boolean }

export async function makeRig({
  store = memoryEventStore(),
  maxFolds,
  after,
}: {
  store?: EventStore
  maxFolds?: number
  after?: (clock: { now: number }) => After
} = {}) {
  const notices: Notice[] = []
  const errors: object[] = []
  const clock = { now: NOON }
  const desk = await openDesk({
    store,
    now: () => clock.now,
    newId: () => v7(),
    log: { ...silent, error: (data) => errors.push(data) },
    maxFolds,
    ...(after ? { after: after(clock) } : {}),
    publish: {
      events: (room, from, events, sender) =>
        notices.push({ events: room, from, types: events.map(({ event }) => event.type), sender }),
      summary: (summary: JobSummary) =>
        notices.push({ summary: summary.id, version: summary.version, reason: summary.reason.code }),
    },
  })

  /** As it stands on the wire: what is given here is hashed. */
  function submission(
    stream: StreamName,
    by: string,
    command: JobCommand | ShopCommand,
    rest: { commandId?: string; doneAt?: number; clockOffsetMs?: number; sender?: string; saw?: number } = {},
  ): Submission {
    const { commandId = v7(), doneAt, clockOffsetMs, sender, saw } = rest
    const sent = {
      ...command,
      commandId,
      ...(doneAt === undefined ? {} : { doneAt }),
      ...(clockOffsetMs === undefined ? {} : { clockOffsetMs }),
    }
    return {
      stream,
      command: sent,
      bodyHash: bodyHash(stream, sent),
      asker: {
        person: by,
        through: saw === undefined ? 'sign_in' : 'grant',
        ...(saw === undefined ? {} : { sawVersion: saw }),
      },
      receivedAt: clock.now,
      sender,
      reply: (answer) => notices.push({ answered: commandId, ok: answer.ok }),
    }
  }
  const send = (...sent: Parameters<typeof submission>): Promise<Reply> => desk.submit(submission(...sent))

  async function opened() {
    for (const command of openShop) await must(send('shop', 'ana', command))
    for (const command of openJob()) await must(send('job:j1', 'ana', command))
    notices.length = 0
  }
  return { desk, store, notices, errors, clock, send, submission, opened }
}

export async function must(reply: Promise<Reply>): Promise<Extract<Reply, { ok: true }>> {
  const answer = await reply
  if (!answer.ok) throw new Error(answer.sentence)
  return answer
}

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
