/** Looking up engines that left the shop: what is asked of the server, and what a year is. */
import { afterEach, describe, expect, test, vi } from 'vitest'
import { makeCalendar } from '../../../shared/format'
import type { FinishedJob } from '../../../shared/protocol'
import { lookUp, pathOf, yearHint, yearIn } from '../../../web/pages/board/finished'

const job = (number: string, finishedAt: number): FinishedJob => ({
  id: number.toLowerCase(),
  number,
  engine: 'Orrath Q31',
  serial: '1',
  owner: 'Mrs Rook',
  finishedAt,
})

describe('the question', () => {
  test.each([
    ['2026', 2026],
    [' 1999 ', 1999],
    ['1970', 1970],
    ['2027', undefined],
    ['1969', undefined],
    ['26', undefined],
    ['20260', undefined],
    ['2e03', undefined],
    ['', undefined],
  ])('%j as a year, in 2026: %s', (text, year) => {
    expect(yearIn(text, 2026)).toBe(year)
  })
  test('what is wrong with a year names those there are', () => {
    expect(yearHint(2026)).toBe('Enter a year from 1970 to 2026, with four digits.')
  })

  test('a number as it was typed, whatever stands in it', () => {
    expect(pathOf({ number: 'E-101' })).toBe('/api/finished?number=E-101')
    expect(pathOf({ number: 'e 7/a&b' })).toBe('/api/finished?number=e%207%2Fa%26b')
  })

  test.each([
    ['UTC', '2024-12-31T24:00:00Z', '2025-12-31T24:00:00Z'],
    ['Pacific/Auckland', '2024-12-31T11:00:00Z', '2025-12-31T11:00:00Z'],
    ['America/Vancouver', '2025-01-01T08:00:00Z', '2026-01-01T08:00:00Z'],
  ])('a year goes from midnight to midnight in %s', (timeZone, from, until) => {
    expect(pathOf({ year: 2025 }, makeCalendar(timeZone))).toBe(
      `/api/finished?from=${Date.parse(from)}&until=${Date.parse(until)}`,
    )
  })
})

describe('the answer', () => {
  afterEach(() => {
    vi.unstubAllGlobals()
  })
  function server(answer: (path: string) => Response | Error) {
    const asked: string[] = []
    vi.stubGlobal('fetch', async (path: string) => {
      asked.push(path)
      const given = answer(path)
      if (given instanceof Error) throw given
      return given
    })
    return asked
  }

  test('what left last stands first', async () => {
    server(() => Response.json({ jobs: [job('E-1', 5), job('E-2', 9), job('E-3', 7)] }))
    expect(await lookUp({ year: 2025 })).toEqual([job('E-2', 9), job('E-3', 7), job('E-1', 5)])
  })

  test('no signal, and nobody signed in, are told in the words they come in', async () => {
    server(() => new TypeError('Failed to fetch'))
    expect(await lookUp({ number: 'e-1' })).toMatchObject({ code: 'no_signal' })
    server(() => Response.json({ code: 'signed_out', sentence: 'Sign in first.' }, { status: 401 }))
    expect(await lookUp({ year: 2025 })).toEqual({
      ok: false,
      code: 'signed_out',
      sentence: 'Sign in first.',
    })
  })
})
