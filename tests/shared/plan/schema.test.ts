/** Plan files with a wrong layout: each fault names its place and the way out. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import orrath from '../../../seed/plans/orrath-q31.json'
import { planJsonSchema, readPlan } from '../../../shared/plan/schema'
import { figures } from '../../shop/words'
import { onlyFault, withJoint } from './faults'

type Path = (string | number)[]
const PASS: Path = ['steps', 4, 'joints', 0, 'passes', 0]

describe('layout', () => {
  test.each<[string, Path, unknown, string]>([
    [
      'missing',
      ['steps', 0, 'minutes', 'low'],
      undefined,
      'steps[0] A1 › minutes.low: is missing. Add it: a number.',
    ],
    [
      'misspelt',
      ['steps', 0, 'neds'],
      [],
      'steps[0] A1: has “neds”, which a plan does not have here. Check the spelling, take it out, or write it as a note.',
    ],
    [
      'a kind nobody knows',
      [...PASS, 'kind'],
      'twist',
      'steps[4] B2 › joints[0] G-B2 › passes[0].kind: is missing or unknown. Write “torque”, “angle”, “slacken” or “wait”.',
    ],
    [
      'text for a number',
      [...PASS, 'torqueNm'],
      '50',
      'steps[4] B2 › joints[0] G-B2 › passes[0].torqueNm: is “50”. Write a number instead.',
    ],
    [
      'a torque of nothing',
      [...PASS, 'torqueNm'],
      0,
      'steps[4] B2 › joints[0] G-B2 › passes[0].torqueNm: is 0, too small. Write a number above 0.',
    ],
    ['three signatures', ['steps', 0, 'signatures'], 3, 'steps[0] A1 › signatures: is 3. Write 1 or 2.'],
    ['no stage at all', ['stages'], [], 'stages: has too few entries. Give at least 1.'],
    [
      'an id with a blank',
      ['id'],
      'orrath q31',
      'id: is “orrath q31”, with characters that cannot stand here. Use letters, digits, full stop, hyphen and underscore, a letter or digit first.',
    ],
    [
      'an id every object answers to',
      ['id'],
      'constructor',
      'id: is a word the system keeps for itself. Choose another.',
    ],
    [
      'another format',
      ['format'],
      'paintmark-plan/2',
      'format: “paintmark-plan/2” is not known here. This reader knows paintmark-plan/1.',
    ],
  ])('%s', (_, path, value, sentence) => {
    expect(onlyFault(changed(orrath, path, value))).toBe(sentence)
  })

  test('a drawing cannot bring anything but lines', () => {
    expect(onlyFault(withJoint({ outline: [{ shape: 'path', d: 'M0 0"/><script>' }] }))).toContain(
      'outline[0].d',
    )
  })

  test('no value of any kind makes the reader throw', () => {
    fc.assert(
      fc.property(fc.anything(), (value) => {
        expect(readPlan(value, figures)).toHaveProperty('faults')
      }),
    )
  })

  test('whatever single entry is taken out of a plan, it reads or says what is wrong', () => {
    const small = withJoint(
      { order: [1, 2, 3, 4] },
      { gates: [{ id: 'g', kind: 'count', text: 'Rags', expect: 2 }] },
    )
    for (const path of pathsOf(small)) {
      const read = readPlan(changed(small, path, undefined), figures)
      if (['order', 'invented'].includes(`${path.at(-1)}`)) expect(read).toHaveProperty('plan')
      else expect('faults' in read && read.faults[0]?.path, path.join('.')).toBeTruthy()
    }
  })

  test('the published JSON Schema is made of the same layout', () => {
    const schema = planJsonSchema()
    expect(schema.required).toEqual(expect.arrayContaining(['format', 'id', 'edition', 'steps']))
    expect(JSON.stringify(schema)).toContain('"torqueNm"')
    expect(schema.additionalProperties).toBe(false)
  })
})

/** A copy with one entry set, or taken out when the value is undefined. */
function changed(value: unknown, path: Path, entry: unknown): unknown {
  const copy = structuredClone(value)
  const parent = path.slice(0, -1).reduce((some, key) => Reflect.get(some as object, key), copy) as object
  const key = path.at(-1) ?? ''
  if (entry === undefined) Reflect.deleteProperty(parent, key)
  else Reflect.set(parent, key, entry)
  return copy
}

function pathsOf(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return Array.isArray(value) ? value.flatMap((one, i) => pathsOf(one, [...path, i])) : []
  return Object.entries(value).flatMap(([key, one]) => [[...path, key], ...pathsOf(one, [...path, key])])
}
