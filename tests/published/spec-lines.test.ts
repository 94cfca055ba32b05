/** `readSpec` against labelled lines of print that were written apart from it, by three who never saw its grammar. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { scoreOf, specLinesOf } from './spec-lines'

const texts = (some: { line: { text: string }; shown: string }[]) =>
  some.map(({ line, shown }) => `${line.text} → ${shown}`)

describe.each([
  { file: 'spec-lines.jsonl', count: 405, relabelled: 0 },
  { file: 'unseen-lines.jsonl', count: 600, relabelled: 10 },
  { file: 'later-lines.jsonl', count: 350, relabelled: 2 },
])('$count labelled lines, $file', ({ file, count, relabelled }) => {
  const lines = specLinesOf(readFileSync(new URL(`data/${file}`, import.meta.url), 'utf8'))
  const score = scoreOf(lines)

  test('[SP13] nothing is read without a question that is not what the line says', () => {
    expect(lines).toHaveLength(count)
    expect(lines.filter((line) => line.relabelled)).toHaveLength(relabelled)
    expect(texts(score.silentlyWrong)).toEqual([])
  })

  test('[SP5] no clear line is called a contradiction', () => {
    expect(texts(score.falseContradictions)).toEqual([])
  })

  test('[SP14] at least 92 % of the clear lines are read, or offered as the one reading', () => {
    expect(score.clearShare).toBeGreaterThanOrEqual(0.92)
    expect(texts(score.offeredWrong)).toEqual([])
  })
})
