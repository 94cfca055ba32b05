/** What a shop's message must look like before anybody decides on it. */
import { describe, expect, test } from 'vitest'
import { personSchema, wrenchSchema } from '../../../shared/shop/schema'
import { person } from '../../shop/people'
import { wrench } from '../../shop/wrenches'

const ana = person('ana')
const click = wrench('W-1', { max: 25 })

describe('[SH7] a person’s entry', () => {
  test('is taken as it is', () => expect(personSchema.parse(ana)).toEqual(ana))
  test.each(['constructor', '__proto__', 'toString'])('is not taken under the id %s', (id) => {
    expect(personSchema.safeParse({ ...ana, id }).error?.issues[0]?.path).toEqual(['id'])
  })
})

describe('[SH10] a wrench’s card', () => {
  test('is taken as it is', () => expect(wrenchSchema.parse(click)).toEqual(click))
  test('is not taken with a scale that ends before it begins', () => {
    expect(wrenchSchema.safeParse({ ...click, min: 25, max: 5 }).error?.issues[0]?.path).toEqual(['max'])
  })
  test.each([
    { ...click, unit: 'deg' },
    { ...click, kind: 'angle_gauge' },
  ])('is not taken with a unit that its kind does not show: $kind in $unit', (card) => {
    expect(wrenchSchema.safeParse(card).error?.issues[0]?.path).toEqual(['unit'])
  })
})
