/** The plan library as one chooses from it, and plans over HTTP: one of the library or of the examples whole, and a file's text read before it is added. */

import { createEffect, createSignal, on } from 'solid-js'
import { counts } from '../../shared/plan/counts'
import type { PlanCaution } from '../../shared/plan/order'
import type { PlanFault } from '../../shared/plan/place'
import type { Plan } from '../../shared/plan/types'
import type { Shop } from '../../shared/shop/types'
import { counted } from '../../shared/words'
import { format } from '../format'
import { ask, type Failure, isFailure } from '../live/http'
import { useShop } from '../live/live'

/** An edition never changes, so that it is asked for once a page. */
const known = new Map<string, Plan>()

/** A plan of the library, which travels as headers: asked for whole where it is shown, or the sentence why it is not there. */
export function createWhole(plan: () => Pick<Plan, 'id' | 'edition'> | undefined) {
  const { shop, known } = useShop()
  const [whole, setWhole] = createSignal<Plan>()
  const [problem, setProblem] = createSignal<string>()
  createEffect(
    on([known, () => plan()?.id, () => plan()?.edition], async ([known, id, edition]) => {
      setWhole(undefined)
      setProblem(undefined)
      if (!known || id === undefined || edition === undefined) return
      const reply = await wholePlan(shop().name, { id, edition })
      if (plan()?.id !== id || plan()?.edition !== edition) return
      if (isFailure(reply)) setProblem(reply.sentence)
      else setWhole(reply)
    }),
  )
  return { whole, problem }
}

/** `whose`: the shop's name; a page that outlives its shop must not show another's. */
async function wholePlan(
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

/** Every edition, by title, the newest first. */
export function editions(plans: Shop['plans']): Plan[] {
  return Object.values(plans)
    .flatMap((byEdition) => Object.values(byEdition))
    .sort((a, b) => a.title.localeCompare(b.title) || a.id.localeCompare(b.id) || b.edition - a.edition)
}

/** Each plan’s newest edition, by title. */
export const latest = (plans: Shop['plans']): Plan[] =>
  editions(plans).filter(
    ({ id, edition }, _, all) => !all.some((other) => other.id === id && other.edition > edition),
  )

/** `50 steps, 180 fasteners, 74 of class A, about 29 h of work`. */
export function countWords(plan: Plan): string {
  const all = counts(plan)
  return `${counted(all.steps, 'step')}, ${counted(all.fasteners, 'fastener')}, ${all.byClass.A || 'none'} of class A, ${all.minutes.likely > 0 ? `about ${format.duration(all.minutes.likely)} of work` : 'no working time given'}`
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
