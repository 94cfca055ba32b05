/** Text that is not JSON: the line, the column and what to put right. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import orrath from '../../../seed/plans/orrath-q31.json'
import { readPlan, readPlanText } from '../../../shared/plan/schema'
import { figures } from '../../shop/words'

describe('text that is not JSON', () => {
  test.each([
    [
      '{\n  "format": "paintmark-plan/1",\n  "id": \n}',
      'line 4, column 1',
      'A value is missing or misspelt here',
    ],
    ['{ "a": 1, }', 'line 1, column 11', 'A name in double quotes is missing here'],
    ['{ "a": [1, 2, ] }', 'line 1, column 15', 'There is a comma after the last entry'],
    ['{ "a": 1\n  "b": 2 }', 'line 2, column 3', 'A comma or } is missing here'],
    ['{ "a": "open\n}', 'line 1, column 8', 'This text is not closed or has a character it cannot have'],
    ['{ "a": 01 }', 'line 1, column 8', 'A value is missing or misspelt here'],
    ['{ "a": { "b": 1 }', 'line 1, column 18', 'The text ends too early'],
    ['', 'line 1, column 1', 'The text ends too early'],
    ['{} {}', 'line 1, column 4', 'There is more text after the end of the plan'],
    ['{ "a": 1,\n "a": 2 }', 'line 2, column 2', 'The name "a" stands twice in one place'],
    [`${'['.repeat(5000)}`, 'line 1, column 62', 'The text is nested too deep'],
  ])('%#', (text, path, problem) => {
    expect(readPlanText(text, figures)).toMatchObject({ faults: [{ path, problem }] })
  })

  test('the scanner and the platform agree on what JSON is', () => {
    const bent = fc
      .tuple(fc.json({ maxDepth: 4 }), fc.nat(), fc.string({ maxLength: 2 }))
      .map(([text, n, put]) => {
        const at = n % (text.length + 1)
        return text.slice(0, at) + put + text.slice(at + 1)
      })
    fc.assert(
      fc.property(bent, (text) => {
        const read = readPlanText(text, figures)
        const slipped = 'faults' in read && /^line \d/.test(read.faults[0]?.path ?? '')
        const twice = 'faults' in read && read.faults[0]?.problem.includes('stands twice')
        if (!twice) expect(slipped).toBe(!parses(text))
      }),
      { numRuns: 1000 },
    )
  })

  test('the file as saved, with a byte-order mark too, reads as the value does', () => {
    const text = JSON.stringify(orrath, null, 2)
    expect(readPlanText(text, figures)).toEqual(readPlan(orrath, figures))
    expect(readPlanText(`\uFEFF${text}`, figures)).toEqual(readPlan(orrath, figures))
  })
})

function parses(text: string): boolean {
  try {
    JSON.parse(text)
    return true
  } catch {
    return false
  }
}
