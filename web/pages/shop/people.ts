/** People as the shop's page shows and edits them: entitlements in words, a first suggestion, what is missing. */

import { kindsOf } from '../../../shared/kinds'
import { ROLES } from '../../../shared/shop/kinds'
import { presentIn } from '../../../shared/shop/left'
import {
  type Entitlement,
  type Leaving,
  PAINTS,
  type PaintName,
  type Person,
  type Shop,
} from '../../../shared/shop/types'
import { listed } from '../../../shared/words'

/** `class A, B and C on every engine`, `class B on petrol and motorcycle`, `nothing`. */
export function entitlementWords({ classes, families }: Entitlement): string {
  if (classes.length === 0) return 'nothing'
  const on = families.length === 0 ? 'every engine' : `${listed(families)} engines`
  return `class ${listed([...classes].sort())} on ${on}`
}

export const byName = (shop: Shop): Person[] => presentIn(shop).sort((a, b) => a.name.localeCompare(b.name))

/** Who has left, the last one first. */
export const leftLast = (shop: Shop): (Leaving & { person: Person })[] =>
  Object.entries(shop.left ?? {})
    .flatMap(([id, leaving]) => {
      const person = shop.people[id]
      return person ? [{ ...leaving, person }] : []
    })
    .sort((a, b) => b.at - a.at)

/** Families somebody could be entitled to: those of the library, and those already named on a card. */
export function familiesKnown(shop: Shop): string[] {
  const plans = Object.values(shop.plans).flatMap((editions) => Object.values(editions))
  const people = Object.values(shop.people).flatMap((person) => [
    ...person.mayDo.families,
    ...person.maySecondSign.families,
  ])
  return [...new Set([...plans.map(({ family }) => family), ...people])].sort((a, b) => a.localeCompare(b))
}

/** Who else wears each paint. */
export function wornBy(shop: Shop, except: string): Map<PaintName, Person[]> {
  const worn = new Map<PaintName, Person[]>()
  for (const person of byName(shop))
    if (person.id !== except) worn.set(person.paint, [...(worn.get(person.paint) ?? []), person])
  return worn
}

/** One nobody wears, else the one worn by fewest. */
export function freePaint(shop: Shop): PaintName {
  const worn = wornBy(shop, '')
  const wearers = (paint: PaintName) => worn.get(paint)?.length ?? 0
  return PAINTS.reduce((best, paint) => (wearers(paint) < wearers(best) ? paint : best))
}

/** First letters of the first and last name; more of the last one while they are taken. */
export function initialsFor(name: string, shop: Shop, except: string): string {
  const parts = name
    .trim()
    .split(/[\s-]+/)
    .filter(Boolean)
  const first = parts[0] ?? ''
  const last = parts.length > 1 ? (parts.at(-1) ?? '') : first.slice(1)
  const taken = new Set(
    Object.values(shop.people)
      .filter(({ id }) => id !== except)
      .map(({ initials }) => initials.toLowerCase()),
  )
  const tries = [
    first.charAt(0) + last.charAt(0),
    first.charAt(0) + last.slice(0, 2),
    first.slice(0, 2) + last.charAt(0),
  ].map((text) => text.toUpperCase())
  return tries.find((text) => text && !taken.has(text.toLowerCase())) ?? tries[0] ?? ''
}

export function newPerson(id: string, shop: Shop): Person {
  return {
    id,
    name: '',
    initials: '',
    paint: freePaint(shop),
    roles: ['technician'],
    mayDo: { classes: ['B', 'C'], families: [] },
    maySecondSign: { classes: [], families: [] },
  }
}

/** As it is sent: trimmed, roles and classes in their order, no families where there is no class. */
export function tidyPerson(person: Person): Person {
  const tidy = ({ classes, families }: Entitlement): Entitlement => ({
    classes: (['A', 'B', 'C'] as const).filter((jointClass) => classes.includes(jointClass)),
    families:
      classes.length === 0
        ? []
        : [...new Set(families.map((family) => family.trim()).filter((family) => family !== ''))],
  })
  return {
    ...person,
    name: person.name.trim(),
    initials: person.initials.trim(),
    roles: kindsOf(ROLES).filter((role) => person.roles.includes(role)),
    mayDo: tidy(person.mayDo),
    maySecondSign: tidy(person.maySecondSign),
  }
}

/** What is still to be filled in; the rules of the shop are asked apart. */
export function personMissing(person: Person): string | undefined {
  if (!person.name.trim() || !person.initials.trim()) return 'Fill in the name and the initials.'
  return undefined
}
