/** RULES.md and the tests speak of the same rules: each is quoted by a test, and no test quotes one that is not there. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { FLAGS } from '../../shared/job/kinds'
import { REFUSAL_CODES } from '../../shared/job/refusals'
import { kindsOf } from '../../shared/kinds'
import { SHOP_REFUSAL_CODES } from '../../shared/shop/refusals'

const rules = readFileSync(new URL('../../shared/RULES.md', import.meta.url), 'utf8')
const ids = [...rules.matchAll(/^- \*\*([A-Z]{2}\d+)\*\*/gm)].map(([, id = '']) => id)
const groups = new Set(ids.map((id) => id.slice(0, 2)))

const tests = fileURLToPath(new URL('..', import.meta.url))
const quoted = readdirSync(tests, { recursive: true, encoding: 'utf8' })
  // Also the suites that several tests run, such as the event store's.
  .filter((path) => /\.tsx?$/.test(path))
  .flatMap((path) => [...readFileSync(`${tests}/${path}`, 'utf8').matchAll(/\[([A-Z]{2}\d+)\]/g)])
  .map(([, id = '']) => id)
  .filter((id) => groups.has(id.slice(0, 2)))

test('every group counts from 1, without gaps', () => {
  for (const group of groups) {
    const numbers = ids.filter((id) => id.startsWith(group)).map((id) => Number(id.slice(2)))
    expect(numbers, group).toEqual(numbers.map((_, index) => index + 1))
  }
  expect(groups.size).toBeGreaterThan(14)
})

test('every rule is quoted by a test', () => {
  expect(ids.filter((id) => !quoted.includes(id))).toEqual([])
})

test('every rule a test quotes is there', () => {
  expect([...new Set(quoted)].filter((id) => !ids.includes(id))).toEqual([])
})

test('every refusal and every flag has its rule', () => {
  const codes = [...REFUSAL_CODES, ...SHOP_REFUSAL_CODES].filter((code) => !rules.includes(`\`${code}\``))
  expect(codes).toEqual([])
  expect(kindsOf(FLAGS).filter((flag) => !rules.includes(`*${flag}*`))).toEqual([])
})
