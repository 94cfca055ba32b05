/**
 * Telling an engine's days: who did what, when, in the scenario's own words for days and hours. What comes out is
 * a list of commands for one job; `demo.ts` plays the lists of all engines in the order of time.
 */
import type { JobCommand } from '../shared/job/commands'
import type { HoldKind } from '../shared/job/kinds'
import type { Engine } from '../shared/job/types'
import { indexPlan } from '../shared/plan/read'
import type { Plan } from '../shared/plan/types'
import { beginJoint, doStep, type How, type Sent, type StopAt } from './bench'
import type { ShopClock } from './clock'
import type { Picture } from './pictures'
import { cribAt } from './shop'

export interface Opening {
  number: string
  engine: Engine
  owner: string
  agreed: string
}

export interface Telling {
  clock: ShopClock
  /** The job is opened by the service writer, and its plan adopted by the supervisor twenty minutes later. */
  open(day: number, opening: Opening): void
  step(stepId: string, doer: string, day: number, time: string, how?: How): void
  begin(stepId: string, doer: string, day: number, time: string, stop: StopAt): void
  /** Commands of one person, a quarter of a minute apart. */
  say(day: number, time: string, person: string, ...commands: JobCommand[]): void
  note(day: number, time: string, person: string, text: string, stepId?: string): void
  hold(
    day: number,
    time: string,
    person: string,
    hold: { kind: HoldKind; stepIds: string[]; what: string; expected?: [day: number, time: string] },
  ): void
  promise(day: number, time: string, forDay: number, reason: string): void
}

export interface Told {
  jobId: string
  sent: Sent[]
  pictures: Picture[]
}

/** One engine's story; each file of `engines/` exports one. */
export interface Story {
  jobId: string
  planId: string
  tell(telling: Telling): void
}

export function told({ jobId, tell }: Story, plan: Plan, clock: ShopClock): Told {
  const sent: Sent[] = []
  const pictures: Picture[] = []
  const workOn = (stepId: string, doer: string, day: number, time: string) => {
    const step = indexPlan(plan).stepById.get(stepId)
    if (!step) throw new Error(`${plan.id} has no step ${stepId}.`)
    return { step, jobId, doer, day, time, clock, crib: cribAt(clock, clock.at(day, time)) }
  }
  const say: Telling['say'] = (day, time, person, ...commands) =>
    commands.forEach((command, n) => {
      sent.push({ at: clock.at(day, time) + n * 15_000, person, command })
    })

  tell({
    clock,
    open(day, opening) {
      say(day, '16:00', 'hattie', { type: 'OpenJob', ...opening })
      say(day, '16:20', 'odile', { type: 'AdoptPlan', planId: plan.id, edition: plan.edition })
    },
    step(stepId, doer, day, time, how = {}) {
      const done = doStep(workOn(stepId, doer, day, time), how)
      sent.push(...done.sent)
      pictures.push(...done.pictures)
    },
    begin(stepId, doer, day, time, stop) {
      sent.push(...beginJoint(workOn(stepId, doer, day, time), stop))
    },
    say,
    note: (day, time, person, text, stepId) =>
      say(day, time, person, { type: 'AddNote', text, ...(stepId ? { stepId } : {}) }),
    hold: (day, time, person, { expected, ...hold }) =>
      say(day, time, person, {
        type: 'RaiseHold',
        ...hold,
        ...(expected ? { expectedAt: clock.at(...expected) } : {}),
      }),
    promise: (day, time, forDay, reason) =>
      say(day, time, 'hattie', { type: 'PromiseDate', date: clock.date(forDay), reason }),
  })
  return { jobId, sent, pictures }
}
