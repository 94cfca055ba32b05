/**
 * Adopted plans, held once however many engines are built by them: a plan is most of a job's bytes, and engines of one
 * kind share it to the letter.
 *
 * Two are the same when their canonical bytes are. Held weakly: when the last job that has it is put out, so is the plan.
 */
import type { AdoptedPlan } from '../../shared/plan/types'
import { canonical, sha256Hex } from '../store'
import type { AnyEvent } from './streams'

export type ShareEvent = (event: AnyEvent) => AnyEvent

export function makePlanPool(): ShareEvent {
  const plans = new Map<string, WeakRef<AdoptedPlan>>()
  const gone = new FinalizationRegistry<string>((hash) => {
    if (!plans.get(hash)?.deref()) plans.delete(hash)
  })

  function shared(plan: AdoptedPlan): AdoptedPlan {
    const hash = sha256Hex(canonical(plan))
    const existing = plans.get(hash)?.deref()
    if (existing) return existing
    plans.set(hash, new WeakRef(plan))
    gone.register(plan, hash)
    return plan
  }

  return (event) => (event.type === 'PlanAdopted' ? { ...event, plan: shared(event.plan) } : event)
}
