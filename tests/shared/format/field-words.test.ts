/** What a message's fields are called on the screens: every number a command carries has a name there. */
import { expect, test } from 'vitest'
import { fieldWords } from '../../../shared/format/field-words'
import { publishedSchema } from '../../../shared/schema'

/** What a plan and a computed proposal carry was read before it is sent; the rest no person types. */
const NOT_TYPED = [
  'plan',
  'proposal',
  'doneAt',
  'clockOffsetMs',
  'entryNumber',
  'bytes',
  'widthPx',
  'heightPx',
]

function numbersIn(schema: unknown, path: string[] = []): string[][] {
  if (typeof schema !== 'object' || schema === null) return []
  const { type, properties = {}, ...rest } = schema as { type?: string; properties?: object }
  const own = type === 'number' || type === 'integer' ? [path] : []
  return [
    ...own,
    ...Object.entries(properties)
      .filter(([name]) => !NOT_TYPED.includes(name))
      .flatMap(([name, value]) => numbersIn(value, [...path, name])),
    ...['items', 'anyOf', 'oneOf', 'allOf'].flatMap((key) =>
      [(rest as Record<string, unknown>)[key] ?? []].flat().flatMap((value) => numbersIn(value, path)),
    ),
  ]
}

test('every number that is typed has a name', () => {
  const { job, shop } = publishedSchema()
  const paths = Object.values({ ...job.commands, ...shop.commands }).flatMap((schema) => numbersIn(schema))
  expect(paths.length).toBeGreaterThan(30)
  expect(paths.filter((path) => !fieldWords(path)).map((path) => path.join('/'))).toEqual([])
})

test('an index within a list is named by the list, and what every object answers to by nothing', () => {
  expect(fieldWords(['positions', 3])).toBe('Positions')
  expect(fieldWords(['constructor'])).toBeUndefined()
  expect(fieldWords([])).toBeUndefined()
})
