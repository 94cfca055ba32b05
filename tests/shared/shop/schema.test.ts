/** What a shop's message must look like before anybody decides on it. */
import { describe, expect, test } from 'vitest'
import { personSchema, wrenchSchema } from '../../../shared/shop/schema'
import type { Person, Wrench } from '../../../shared/shop/types'

const person: Person = {
  id: 'ana',
  name: 'Ana',
  initials: 'AN',
  paint: 'blue',
  roles: ['technician'],
  mayDo: { classes: ['A'], families: [] },
  maySecondSign: { classes: [], families: [] },
}
const wrench: Wrench = {
  id: 'W-1',
  kind: 'click',
  title: 'click wrench',
  unit: 'N·m',
  min: 5,
  max: 25,
  state: 'in_service',
}

describe('[SH7] a person’s entry', () => {
  test('is taken as it is', () => expect(personSchema.parse(person)).toEqual(person))
  test.each(['constructor', '__proto__', 'toString'])('is not taken under the id %s', (id) => {
    expect(personSchema.safeParse({ ...person, id }).error?.issues[0]?.path).toEqual(['id'])
  })
})

describe('[SH10] a wrench’s card', () => {
  test('is taken as it is', () => expect(wrenchSchema.parse(wrench)).toEqual(wrench))
  test('is not taken with a scale that ends before it begins', () => {
    expect(wrenchSchema.safeParse({ ...wrench, min: 25, max: 5 }).error?.issues[0]?.path).toEqual(['max'])
  })
  test.each([
    { ...wrench, unit: 'deg' },
    { ...wrench, kind: 'angle_gauge' },
  ])('is not taken with a unit that its kind does not show: $kind in $unit', (card) => {
    expect(wrenchSchema.safeParse(card).error?.issues[0]?.path).toEqual(['unit'])
  })
})
