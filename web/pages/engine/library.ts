/** The plan library as one chooses from it: each plan's newest edition, by title, and its size in words. */
import { counts } from '../../../shared/plan/counts'
import type { Plan } from '../../../shared/plan/types'
import type { Shop } from '../../../shared/shop/types'
import { format } from '../../format'

export function latestPlans(plans: Shop['plans']): Plan[] {
  return Object.values(plans)
    .flatMap((editions) => Object.values(editions).sort((a, b) => b.edition - a.edition)[0] ?? [])
    .sort((a, b) => a.title.localeCompare(b.title))
}

/** `50 steps, 180 fasteners, 74 of them class A, about 29 h of work`; a header without steps says only its family. */
export function libraryWords(plan: Plan): string {
  if (!plan.steps || plan.steps.length === 0) return `For ${plan.family} engines.`
  const { steps, fasteners, byClass, minutes } = counts(plan)
  return `${steps} steps, ${fasteners} fasteners, ${byClass.A} of them class A, about ${format.duration(minutes.likely)} of work.`
}
