/**
 * What was reckoned of a step, kept from one version of a job to the next.
 *
 * A job never changes in place, and `evolve` shares whatever an event leaves alone. So what was reckoned of a step
 * holds for as long as every part of the job that it may read is the very same object: the step's own entries; the readings,
 * fasteners, holes, settled values and interruptions of its joints and of those due at it; deferrals and waivers; the plan. A
 * clock, a hold or another step's state is none of these: what depends on them is put together anew each time.
 */
import type { AdoptedStep } from '../../plan/types'
import type { Job, PlannedJob } from '../types'
import { dueAt } from './deferral-index'

interface StepMemory {
  /** The version it was last found to hold for. */
  of: PlannedJob
  known: Map<string, unknown>
}

const memories = new WeakMap<Job, Map<string, StepMemory>>()

/** What `evolve` calls: the next version begins with what was reckoned of the one before. */
export function carryMemory(from: Job, to: Job): Job {
  const memory = from === last.job ? last.memory : memories.get(from)
  if (memory) memories.set(to, memory)
  return to
}

/** What `reckon` gives for a step, reckoned again only when something it may read has changed. */
export function ofStep<V>(job: PlannedJob, step: AdoptedStep, what: string, reckon: () => V): V {
  const memory = job === last.job ? last.memory : memoryOf(job)
  let mine = memory.get(step.id)
  if (!mine || (mine.of !== job && !sameParts(mine.of, job, step))) {
    mine = { of: job, known: new Map() }
    memory.set(step.id, mine)
  }
  mine.of = job
  if (mine.known.has(what)) return mine.known.get(what) as V
  const value = reckon()
  // Reckoning one thing may have looked at another version's step in between.
  if (mine.of === job) mine.known.set(what, value)
  return value
}

/** One job is asked hundreds of things in a row, and a look into a WeakMap is the dearest part of asking. */
let last: { job?: Job; memory: Map<string, StepMemory> } = { memory: new Map() }

function memoryOf(job: Job): Map<string, StepMemory> {
  let memory = memories.get(job)
  if (!memory) {
    memory = new Map()
    memories.set(job, memory)
  }
  last = { job, memory }
  return memory
}

function sameParts(a: PlannedJob, b: PlannedJob, step: AdoptedStep): boolean {
  if (a.plan !== b.plan || a.deferrals !== b.deferrals || a.waivers !== b.waivers) return false
  if (a.steps !== b.steps && a.steps[step.id] !== b.steps[step.id]) return false
  const due = dueAt(b, step.id)
  const same = (before: Record<string, unknown>, after: Record<string, unknown>) =>
    before === after ||
    (step.joints.every(({ id }) => before[id] === after[id]) &&
      due.every(({ joint }) => before[joint] === after[joint]))
  return (
    same(a.readings, b.readings) &&
    same(a.fasteners, b.fasteners) &&
    same(a.holes, b.holes) &&
    same(a.settled, b.settled) &&
    same(a.interrupted, b.interrupted)
  )
}
