/** Plans over HTTP: one of the library or of the examples whole, and a file's text read before it is added. */
import type { PlanCaution } from '../../shared/plan/order'
import type { PlanFault } from '../../shared/plan/place'
import type { Plan } from '../../shared/plan/types'
import { ask, type Failure, isFailure } from '../live/http'

/** An edition never changes, so that it is asked for once a page. */
const known = new Map<string, Plan>()

/** `whose`: the shop's name; a page that outlives its shop must not show another's. */
export async function wholePlan(
  whose: string,
  { id, edition }: Pick<Plan, 'id' | 'edition'>,
): Promise<Plan | Failure> {
  const key = JSON.stringify([whose, id, edition])
  const cached = known.get(key)
  if (cached) return cached
  const reply = await ask<Plan>(`/api/plans/${encodeURIComponent(id)}/${edition}`)
  if (!isFailure(reply)) known.set(key, reply)
  return reply
}

/** Where one is looked at. */
export const planHref = (plan: Pick<Plan, 'id' | 'edition'>): string =>
  `/shop/plans/${encodeURIComponent(plan.id)}/${plan.edition}`

export const examplePlan = (id: string): Promise<Plan | Failure> =>
  ask<Plan>(`/api/example-plans/${encodeURIComponent(id)}`)

export type Reading =
  | { plan: Plan; cautions: PlanCaution[] }
  | { faults: PlanFault[] }
  /** Not read at all: no signal, too long, signed out. */
  | { sentence: string }

/** The server reads it; nothing is added by this. What it found good is the same text as a value. */
export async function readPlanFile(text: string): Promise<Reading> {
  try {
    const answer = await fetch('/api/plans/read', {
      method: 'POST',
      credentials: 'same-origin',
      headers: { 'content-type': 'application/json' },
      body: text,
    })
    const body = await answer.json()
    if (answer.ok)
      return {
        plan: JSON.parse(text.replace(/^\uFEFF/, '')) as Plan,
        cautions: body.cautions as PlanCaution[],
      }
    if (Array.isArray(body.faults) && body.faults.length > 0) return { faults: body.faults }
    return { sentence: String(body.sentence ?? `The server answered ${answer.status}. Try again.`) }
  } catch {
    return { sentence: 'No signal: the shop’s server does not answer. What you entered stays here.' }
  }
}
