/** The hole register: what is found and done at a thread, and what it does to what was signed there. */
import { describe, expect, test } from 'vitest'
import { faultOf, holeAt } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import { claim, type Given, hole, place, shows, sign } from '../../../shop/acts'
import { floor } from '../../../shop/given'
import { entry } from '../../../shop/ids'
import { all, housingSigned } from '../../../shop/stories'

const solid = { condition: 'insert', insert: { kind: 'solid', lengthMm: 12 } } as const

const faultAt = (position: number, ...happened: Given[]) => {
  const { job } = floor(...happened)
  const joint = indexPlan(job.plan).jointById.get('JB')
  return joint && faultOf(job, joint, position)
}

describe('the hole register', () => {
  test('[HR1] names a joint and its positions', () => {
    floor().when(hole('none', 1)).refuses('joint_not_found')
    floor().when(hole('JB', 9)).refuses('position_not_found', { position: 9 })
  })
  test('[HR2] what was found and what was done both stay, the last is in force', () => {
    const then = floor(hole('JB', 4)).when(
      hole('JB', 4, { ...solid, doneBy: 'the machine shop', threadMm: 18.5, note: 'square' }),
    )
    then.gives({
      type: 'HoleRecorded',
      jointId: 'JB',
      position: 4,
      ...solid,
      doneBy: 'the machine shop',
      threadMm: 18.5,
      note: 'square',
    })
    expect(then.job.holes.JB?.map(({ condition }) => condition)).toEqual(['stripped', 'insert'])
    expect(holeAt(then.job, 'JB', 4)?.condition).toBe('insert')
    expect(holeAt(then.job, 'JB', 3)).toBeUndefined()
  })
  test('[HR3] the same again, in whatever order it was written', () => {
    const insert = { kind: 'wire', lengthMm: 15, setDownMm: 1 } as const
    const turned = { setDownMm: 1, lengthMm: 15, kind: 'wire' } as const
    floor(hole('JB', 4, { condition: 'insert', insert }))
      .when(hole('JB', 4, { insert: turned, condition: 'insert' }))
      .thenNothing()
    floor(hole('JB', 4, { condition: 'insert', insert }))
      .when(hole('JB', 4, { condition: 'insert', insert: { ...insert, lengthMm: 10 } }))
      .gives({ type: 'HoleRecorded' })
    floor(hole('JB', 4)).when(hole('JB', 5)).gives({ type: 'HoleRecorded' })
  })
  test('[HR4] stripped or renewed, what was signed lapses; worn or measured, it does not', () => {
    floor(housingSigned())
      .when(hole('JB', 4))
      .gives({ type: 'HoleRecorded' }, { type: 'SignaturesLapsed', stepId: 'housing', because: 'hole' })
    floor(housingSigned())
      .when(hole('JB', 4, solid))
      .gives({ type: 'HoleRecorded' }, { type: 'SignaturesLapsed', because: 'hole' })
    floor(housingSigned())
      .when(hole('JB', 4, { condition: 'worn' }))
      .gives({ type: 'HoleRecorded' })
    floor(housingSigned())
      .when(hole('JB', 4, { condition: 'original', depthMm: 22 }))
      .gives({ type: 'HoleRecorded' })
  })
  test('[HR5] nothing is signed over a stripped thread; renewed, it is', () => {
    const read = [claim('housing'), all('JB', [1, 2, 3, 4, 5, 6, 7, 8], 22)]
    floor(read, hole('JB', 4))
      .when(sign('housing'))
      .refuses('fastener_not_right', { joint: 'JB', position: 4, fault: 'hole_stripped' })
    expect(faultAt(4, hole('JB', 4))).toBe('hole_stripped')
    expect(faultAt(3, hole('JB', 4))).toBeUndefined()
    floor(read, hole('JB', 4), hole('JB', 4, solid))
      .when(sign('housing'))
      .gives({ type: 'StepSigned' })
  })
  test('[HR6] nothing holds before the cure is over; at its end it does', () => {
    const cured = (minute: number) =>
      floor(claim('housing'), hole('JB', 1, { ...solid, cureMinutes: 720, at: 10 })).when(
        shows('JB', 1, 22, { at: minute }),
      )
    cured(729).flags('too_early')
    cured(730).flags()
    floor(claim('housing'), hole('JB', 2, { ...solid, cureMinutes: 720, at: 10 }))
      .when(shows('JB', 1, 22, { at: 11 }))
      .flags()
  })
  test('[HR7] a shortened stud is recorded with its length, and said again with another is another', () => {
    const then = floor().when(place('JB', [4], { lengthMm: 58 }))
    then.gives({ type: 'FastenersPlaced', lengthMm: 58 })
    expect(then.job.fasteners.JB?.[4]?.lengthMm).toBe(58)
    floor(place('JB', [4], { lengthMm: 58 }))
      .when(place('JB', [4], { lengthMm: 58 }))
      .thenNothing()
    floor(place('JB', [4], { lengthMm: 58 }))
      .when(place('JB', [4], { lengthMm: 60 }))
      .gives({ type: 'FastenersPlaced', lengthMm: 60 })
  })
  test('[HR2] an entry keeps its own name', () => {
    const { job } = floor(hole('JB', 1), hole('JB', 2))
    expect(job.holes.JB?.map(({ id }) => id)).toEqual([entry(1), entry(2)])
  })
})
