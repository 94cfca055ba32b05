/** Whom a job's record names, and what they were called when somebody wrote that down. Pure. */
import { lookUp } from '../look-up'
import type { Shop } from '../shop/types'
import type { Job, PersonThen } from './types'

/**
 * Everybody who stands in the fold as having done or looked at something, sorted. The plan is not asked: it names
 * nobody of this shop.
 */
export function peopleNamed({ plan: _, ...job }: Job): string[] {
  const named = new Set<string>()
  const look = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return
    // A list's members under their numbers, too.
    for (const [key, member] of Object.entries(value)) {
      if ((key === 'by' || key === 'personId') && typeof member === 'string') named.add(member)
      else look(member)
    }
  }
  look(job)
  return [...named].sort()
}

/** Their names and initials as the shop has them now; whoever it does not know is left out. */
export function namesNow(shop: Shop, people: readonly string[]): Record<string, PersonThen> {
  return Object.fromEntries(
    people.flatMap((id) => {
      const person = lookUp(shop.people, id)
      return person ? [[id, { name: person.name, initials: person.initials }]] : []
    }),
  )
}
