/** Why the shop refused: codes and their sentences. What is so, which one, what to do next. */
import type { Refusal } from '../log'
import { SOMEBODY_WHO_LEADS } from './entitlement'

interface ShopRefusalData {
  shop_already_open: { name: string }
  shop_not_open: Record<never, never>
  founder_leads: Record<never, never>
  shop_role_needed: Record<never, never>
  person_exists: { name: string }
  person_not_found: { id: string }
  initials_taken: { initials: string; name: string }
  last_leader: { name: string }
  pin_of_another: Record<never, never>
  person_left: { name: string }
  wrench_exists: { id: string }
  shop_wrench_not_found: { id: string }
  edition_taken: { title: string; edition: number }
  plan_has_faults: { path: string; problem: string; fix: string; inFile?: string }
}

export type { ShopRefusalData }
export type ShopRefusalCode = keyof ShopRefusalData

type Sentences = { [Code in ShopRefusalCode]: (data: ShopRefusalData[Code]) => string }

const SENTENCES: Sentences = {
  shop_already_open: (d) => `The shop ${d.name} is open already. Sign in to it.`,
  shop_not_open: () => 'No shop is open yet. Open it on this server’s first page.',
  founder_leads: () =>
    `The first person must be ${SOMEBODY_WHO_LEADS}, so that somebody can enter the others.`,
  shop_role_needed: () =>
    `Only ${SOMEBODY_WHO_LEADS} can change the shop’s people, wrenches, tolerances and plans. Ask one of them.`,
  person_exists: (d) => `${d.name} is entered already. Change that entry instead.`,
  person_not_found: (d) => `Nobody by the id ${d.id} works here. Add the person first.`,
  initials_taken: (d) =>
    `${d.initials} are ${d.name}’s initials. Choose others: they appear beside every paint stripe.`,
  last_leader: (d) =>
    `${d.name} is the only supervisor or owner. Enter another one before the role is taken away.`,
  person_left: (d) => `${d.name} has left the shop and gets no PIN. Enter them again first.`,
  pin_of_another: () => `Another person’s PIN is set by ${SOMEBODY_WHO_LEADS}. Ask one of them.`,
  wrench_exists: (d) => `${d.id} is in the crib already. Change its card instead.`,
  shop_wrench_not_found: (d) => `The crib has no wrench ${d.id}. Add it first.`,
  edition_taken: (d) =>
    `Edition ${d.edition} of ${d.title} is in the library with other values. Give this one a new edition.`,
  plan_has_faults: (d) => `${d.path}: ${d.problem}. ${d.inFile ?? d.fix}`,
}

export function shopSentenceFor(refusal: Refusal): string | undefined {
  const sentence = SENTENCES[refusal.refused as ShopRefusalCode] as ((data: unknown) => string) | undefined
  return sentence?.(refusal.data)
}

/** Refusals about who is asking: HTTP answers them 403. */
export const SHOP_ABOUT_THE_PERSON: ReadonlySet<string> = new Set<ShopRefusalCode>([
  'shop_role_needed',
  'pin_of_another',
])
export const SHOP_REFUSAL_CODES = Object.keys(SENTENCES) as ShopRefusalCode[]
