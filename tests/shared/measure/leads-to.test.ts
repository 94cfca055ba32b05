/** What a plan's measurement leads to: the gasket of B5 and the pump shim of E1 in the demo shop's plan, and clearances. */
import { describe, expect, test } from 'vitest'
import { leadsTo } from '../../../shared/measure'
import type { Measurement } from '../../../shared/plan/types'
import { figures } from '../../shop/words'

const protrusion: Measurement = {
  id: 'protrusion',
  title: 'Piston protrusion',
  unit: 'mm',
  places: ['cyl 1', 'cyl 2', 'cyl 3'],
  leadsTo: {
    kind: 'gasket',
    grades: [
      { name: 'one notch', minMm: 0.55, maxMm: 0.6 },
      { name: 'two notches', minMm: 0.6, maxMm: 0.65 },
    ],
  },
}
const timing: Measurement = {
  id: 'spill',
  title: 'Spill timing',
  unit: '°',
  places: ['cyl 1'],
  min: 16.5,
  max: 17.5,
  leadsTo: { kind: 'timing_shim', fittedMm: 0.5, perMm: -10, sizesMm: [0.3, 0.5, 0.7] },
}

describe('where a measurement leads', () => {
  test('nowhere before anything is read, nor where the plan names nothing', () => {
    expect(leadsTo(protrusion, {}, figures)).toEqual([])
    const { leadsTo: _, ...plain } = protrusion
    expect(leadsTo(plain, { 'cyl 1': 0.6 }, figures)).toEqual([])
  })
  test('a gasket is certain when every piston is measured', () => {
    const [some] = leadsTo(protrusion, { 'cyl 1': 0.58, 'cyl 2': 0.62 }, figures)
    expect(some).toMatchObject({ inside: false, sentence: expect.stringContaining('1 more to measure') })
    const [all] = leadsTo(protrusion, { 'cyl 1': 0.58, 'cyl 2': 0.62, 'cyl 3': 0.57 }, figures)
    expect(all).toMatchObject({
      inside: true,
      sentence: 'Gasket two notches, by the highest piston, 0.62 mm.',
    })
  })
  test('timing read at 19.1 with half a millimetre asks for seven tenths', () => {
    const [answer] = leadsTo(timing, { 'cyl 1': 19.1 }, figures)
    expect(answer).toMatchObject({ place: 'cyl 1', inside: false })
    expect(answer?.sentence).toBe(
      'With 0.5 mm of shim in place, 0.71 mm would be right. Fit 0.7 mm, then measure again.',
    )
    expect(leadsTo(timing, { 'cyl 1': 17.2 }, figures)[0]).toMatchObject({ inside: true })
  })
  test('a clearance says what its side means', () => {
    const gap: Measurement = {
      id: 'gap',
      title: 'Top ring gap',
      unit: 'mm',
      places: ['cyl 1', 'cyl 2'],
      min: 0.25,
      max: 0.4,
      leadsTo: { kind: 'clearance', of: 'ring_gap' },
    }
    const answers = leadsTo(gap, { 'cyl 1': 0.2, 'cyl 2': 0.3 }, figures)
    expect(answers.map(({ place, inside }) => [place, inside])).toEqual([
      ['cyl 1', false],
      ['cyl 2', true],
    ])
    expect(answers[0]?.sentence).toContain('file')
  })
})
