import { expect, test } from 'vitest'
import { gradeWords } from '../../../shared/plan/words'

test.each([
  ['nut', '8', 'class 8 nut'],
  ['bolt', '10.9', 'class 10.9 bolt'],
  ['bolt', 'A4-70 stainless', 'A4-70 stainless'],
  ['plug', 'bronze', 'bronze'],
] as const)('a %s of %s reads “%s”: no number stands bare', (fastener, grade, words) => {
  expect(gradeWords({ fastener, grade })).toBe(words)
})
