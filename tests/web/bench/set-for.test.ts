/** A wrench set for another engine is asked about again: no job knows what is done with it on another. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { isSetElsewhere, noteSetFor } from '../../../web/pages/bench/set-for'

beforeEach(() => {
  const kept = new Map<string, string>()
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  })
})
afterEach(() => void vi.unstubAllGlobals())

test('what was entered counts until the wrench is set for another engine, joint or pass', () => {
  expect(isSetElsewhere('TW-13', 'e104 oil-cooler 1')).toBe(false)
  noteSetFor('TW-13', 'e104 oil-cooler 1')
  expect(isSetElsewhere('TW-13', 'e104 oil-cooler 1')).toBe(false)
  noteSetFor('TW-13', 'e101 rocker-cover 1')
  expect(isSetElsewhere('TW-13', 'e104 oil-cooler 1')).toBe(true)
  expect(isSetElsewhere('TW-14', 'e104 oil-cooler 1')).toBe(false)
  noteSetFor('TW-13', 'e104 oil-cooler 1')
  expect(isSetElsewhere('TW-13', 'e104 oil-cooler 1')).toBe(false)
})
