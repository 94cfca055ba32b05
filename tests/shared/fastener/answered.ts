/** What a test of the fastener room needs: an answer that is none is a failure, shown with its sentence. */
import { expect } from 'vitest'
import { type FastenerRefusal, fastenerSentence } from '../../../shared/fastener'
import { isRefusal } from '../../../shared/log'
import { figures } from '../../shop/words'

export function answered<T>(value: T): Exclude<T, FastenerRefusal> {
  if (isRefusal(value)) throw new Error(fastenerSentence(value as FastenerRefusal, figures))
  return value as Exclude<T, FastenerRefusal>
}

/** The refusal's code, after its sentence has proven to say something. */
export function refusedAs(value: unknown): string {
  if (!isRefusal(value)) throw new Error(`answered: ${JSON.stringify(value)}`)
  const sentence = fastenerSentence(value as FastenerRefusal, figures)
  expect(sentence).toMatch(/^[“\p{L}\d].*\.$/su)
  // What a person typed stands in quotes and may be anything.
  expect(sentence.replace(/“.*”/s, '')).not.toMatch(/undefined|NaN|\[object/)
  return value.refused
}

/** Every number inside a value, however deep. */
export function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value]
  if (typeof value !== 'object' || value === null) return []
  return Object.values(value).flatMap(numbersIn)
}
