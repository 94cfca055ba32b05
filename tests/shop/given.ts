/**
 * Tests that read like the shop floor: `given(what happened).when(what is asked).gives(…)`.
 *
 * Everything has a default; a test states only what matters. What is given must be accepted, or the test
 * stops there: a fixture that was refused would prove nothing.
 */
import { expect } from 'vitest'
import type { Outcome } from '../../shared/job/context'
import { decide } from '../../shared/job/decide'
import type { JobEvent } from '../../shared/job/events'
import { evolveAll, newJob } from '../../shared/job/evolve'
import type { Flag } from '../../shared/job/kinds'
import { type RefusalCode, sentenceFor } from '../../shared/job/refusals'
import type { Job, PlannedJob, Reading } from '../../shared/job/types'
import { isRefusal, type Refusal } from '../../shared/log'
import type { Shop } from '../../shared/shop/types'
import { type Act, adoptPlan, type Given, open } from './acts'
import { contextOf, run } from './run'
import { testShop } from './shop'
import { words } from './words'

class Then {
  constructor(
    readonly before: Job,
    readonly outcome: Outcome,
  ) {}

  /** The job after it. */
  get job(): PlannedJob {
    return evolveAll(this.before, this.events) as PlannedJob
  }

  get events(): JobEvent[] {
    if (isRefusal(this.outcome))
      throw new Error(`refused: ${this.outcome.refused} ${JSON.stringify(this.outcome.data)}`)
    return this.outcome as JobEvent[]
  }

  refuses(code: RefusalCode, data: Record<string, unknown> = {}): void {
    expect(this.outcome).toMatchObject({ refused: code, data })
    const said = sentenceFor(this.outcome as Refusal, words)
    expect(said).not.toMatch(/undefined|NaN|\[object|Reload the page/)
  }

  /** Exactly these events, each with at least these fields. */
  gives(...events: (Partial<JobEvent> & { type: JobEvent['type'] })[]): this {
    expect(this.outcome).not.toHaveProperty('refused')
    expect(this.events.map(({ type }) => type)).toEqual(events.map(({ type }) => type))
    expect(this.events).toMatchObject(events)
    return this
  }

  thenNothing(): void {
    expect(this.outcome).toEqual([])
  }

  /** A reading is recorded, with exactly these flags. */
  flags(...flags: Flag[]): this {
    expect(this.reading.flags).toEqual(flags)
    return this
  }

  get reading(): Reading {
    const taken = this.events.find((event) => event.type === 'ReadingTaken')
    if (!taken) throw new Error('no reading was recorded')
    return taken
  }
}

class Story {
  constructor(
    private readonly start: Job,
    private readonly happened: Given[],
    private readonly shop: Shop = testShop,
    private readonly asked: Partial<Act> = {},
  ) {}

  /** The same in another shop: it counts for what is asked, not for what was given. */
  inShop(shop: Partial<Shop>): Story {
    return new Story(this.start, this.happened, { ...this.shop, ...shop }, this.asked)
  }

  when(act: Act): Then {
    const { job, count } = run(this.start, this.happened, testShop)
    return new Then(job, decide(job, act.command, contextOf(act, count, this.shop)))
  }

  get job(): PlannedJob {
    return run(this.start, this.happened, testShop).job as PlannedJob
  }
}

/** No job yet. */
export const fresh = (...happened: Given[]): Story => new Story(newJob('job-1'), happened)

/** An open job that follows the test plan. */
export const given = (...happened: Given[]): Story => fresh(open(), adoptPlan(), ...happened)

/** An open job that follows the plan of the whole floor. */
export const floor = (...happened: Given[]): Story =>
  fresh(open(), adoptPlan({ planId: 'floor-engine' }), ...happened)
