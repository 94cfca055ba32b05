/** Whom somebody means at the console: by id, initials or name, in whatever case. */
import type { Person, Shop } from '../../shared/shop/types'
import { Refused } from '../settings'

export function personMeant(shop: Shop, asked: string): Person {
  const wanted = asked.trim().toLowerCase()
  const everybody = Object.values(shop.people)
  if (everybody.length === 0)
    throw new Refused('No shop is open here yet, so nobody has a PIN. Open it first.')
  const by = (of: (person: Person) => string) =>
    everybody.filter((person) => of(person).toLowerCase() === wanted)
  const [person, ...others] =
    [
      by(({ id }) => id),
      by(({ name }) => name),
      by(({ initials }) => initials),
      everybody.filter(({ name }) => name.toLowerCase().split(/\s+/).includes(wanted)),
    ].find((found) => found.length > 0) ?? []
  if (person && others.length === 0) return person
  const names = (person ? [person, ...others] : everybody).map(
    ({ name, initials }) => `${name} (${initials})`,
  )
  throw new Refused(
    person
      ? `"${asked}" may be ${names.join(' or ')}. Give the initials.`
      : `Nobody called "${asked}" works here. There are: ${names.join(', ')}.`,
  )
}
