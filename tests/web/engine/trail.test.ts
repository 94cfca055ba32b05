/** The trail as the engine page reads it, and the plan library it offers. */
import { describe, expect, test } from 'vitest'
import { trailLine } from '../../../shared/job/trail'
import { latestPlans, libraryWords } from '../../../web/pages/engine/library'
import { narrowTrail, occurringInTrail, withNewer } from '../../../web/pages/engine/trail-view'
import { caps, claim, plan, sign, tell, words } from '../../shop/small-engine'

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

describe('the library', () => {
  test('offers the newest edition of each plan, by title', () => {
    const older = { ...plan, edition: 1 }
    const newer = { ...plan, edition: 10 }
    const other = { ...plan, id: 'other', title: 'Another engine' }
    const offered = latestPlans({ small: { 10: newer, 1: older }, other: { 1: other } })
    expect(offered.map(({ title, edition }) => [title, edition])).toEqual([
      ['Another engine', 1],
      ['Small engine', 10],
    ])
  })
  test('says how large a plan is; a header without steps does not pretend', () => {
    expect(libraryWords(plan)).toBe('5 steps, 10 fasteners, 6 of them class A, about 1 h 40 min of work.')
    expect(libraryWords({ ...plan, steps: [] })).toBe('For diesel engines.')
  })
})
