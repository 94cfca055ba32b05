/** The crowd and the extremes, as the demonstration takes them in beside its own eight. */
import type { Yard } from '../../seed/demo'
import { planFile } from '../../seed/shop'
import { crowd, PLAN_IDS } from './engines'
import { longPlan, longStory } from './extremes'

export function fullYard(repo: string, count: number): Yard {
  const plans = new Map(PLAN_IDS.map((id) => [id, planFile(repo, id)]))
  return { stories: [longStory, ...crowd(count, plans)], plans: [longPlan()] }
}
