/** Job numbers: what is offered to a new job, and whom a number that was typed in a hurry means. */
import { describe, expect, test } from 'vitest'
import { nextNumber, numbersMeant } from '../../../shared/job/number'

describe('the number offered to a new job', () => {
  test.each([
    [['E-101', 'E-99'], 'E-102'],
    [['2026-009', '2026-010'], '2026-011'],
    [['E-099'], 'E-100'],
    [['Rosie'], ''],
    [[], ''],
  ])('after %j comes %j', (numbers, next) => {
    expect(nextNumber(numbers)).toBe(next)
  })

  test('is never one that an engine which left long ago carries', () => {
    expect(nextNumber(['E-12'], ['E-11', 'E-12', 'E-13', 'E-40'])).toBe('E-41')
    expect(nextNumber([], ['E-12', 'E-40'])).toBe('E-41')
  })

  test('follows the manner of the engines in the shop, whatever was higher in another', () => {
    expect(nextNumber(['2026-010'], ['E-9000', '2026-012'])).toBe('2026-013')
  })
})

describe('the number somebody means', () => {
  const numbers = ['E-101', 'E-1010', 'F 7/2', '2026-009', 'e-101b']
  test.each([
    ['E-101', ['E-101']],
    ['e-101', ['E-101']],
    ['E 101', ['E-101']],
    [' e101 ', ['E-101']],
    ['101', ['E-101']],
    ['0101', ['E-101']],
    ['9', ['2026-009']],
    ['2026009', ['2026-009']],
    ['f72', ['F 7/2']],
    ['E-10', []],
    ['E', []],
    ['–', []],
    ['', []],
  ])('%j: %j', (asked, meant) => {
    expect(numbersMeant(asked, numbers)).toEqual(meant)
  })

  test('is more than one where two read the same', () => {
    expect(numbersMeant('101', ['E-101', 'F-101'])).toEqual(['E-101', 'F-101'])
    expect(numbersMeant('E101', ['E-101', 'E 101'])).toEqual(['E-101', 'E 101'])
    expect(numbersMeant('E-101', ['E-101', 'E 101'])).toEqual(['E-101'])
  })
})
