/**
 * What the people of a record were called when it was given. Pure.
 *
 * A name the release carries is that one for ever; one it does not carry (an older release, or a note left by
 * somebody the shop no longer knew) is today's and is told as such.
 */
import type { Release } from '../../../shared/job/types'
import type { Shop } from '../../../shared/shop/types'
import type { Words } from '../../../shared/words'

export function wordsThen(release: Pick<Release, 'people'>, today: Words): Words {
  return { ...today, person: (id) => release.people?.[id]?.name ?? today.person(id) }
}

/** The shop as it is now, with its people called as they were then. */
export function shopThen(release: Pick<Release, 'people'>, shop: Shop): Shop {
  const people = Object.entries(shop.people).map(([id, person]) => [
    id,
    { ...person, ...release.people?.[id] },
  ])
  return { ...shop, people: Object.fromEntries(people) }
}

/** What is to be said of the names on it; nothing when all of them are of that day. */
export function todaysNames(
  release: Pick<Release, 'people'>,
  named: readonly string[],
  today: Words,
): string | undefined {
  if (!release.people)
    return 'Names and initials are today’s: this release was given before names were kept with it.'
  const missing = named.filter((id) => !release.people?.[id])
  return missing.length === 0 ? undefined : `Called by today’s name: ${missing.map(today.person).join(', ')}.`
}
