/** The trail as the engine page reads it, and the plan library it offers. */
import { describe, expect, test } from 'vitest'
import { trailLine } from '../../../shared/job/trail'
import { narrowTrail, occurringInTrail, withNewer } from '../../../web/pages/engine/trail-view'
import { caps, claim, sign, tell, words } from '../../shop/small-engine'

describe('the trail', () => {
  const { job, events } = tell(...caps, sign('bram', 'S1'), claim('suvi', 'S2'))
  const lines = events.map((event) => trailLine(job, event, words))

  test('newest first', () => {
    expect(narrowTrail(lines, {})[0]?.sentence).toBe('Suvi claimed S2 Rod caps.')
    expect(narrowTrail(lines, {}).at(-1)?.version).toBe(1)
  })
  test('narrowed to a person, and to a step with the readings of its joints', () => {
    expect(narrowTrail(lines, { person: 'suvi' }).map(({ type }) => type)).toEqual(['StepClaimed'])
    expect(narrowTrail(lines, { step: 'S1' }).map(({ type }) => type)).toEqual([
      'StepSigned',
      ...Array(4).fill('ReadingTaken'),
      'StepClaimed',
    ])
  })
  test('offers whom and which steps it speaks of', () => {
    expect(occurringInTrail(lines)).toEqual({ people: ['bram', 'suvi'], steps: ['S1', 'S2'] })
  })
  test('what comes twice, or late, stands once and in its place', () => {
    const [first, ...rest] = lines
    const both = withNewer(rest, first ? [first, ...rest.slice(0, 2)] : [])
    expect(both.map(({ version }) => version)).toEqual(lines.map(({ version }) => version))
  })
})
