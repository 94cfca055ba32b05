/** E-101 as the scenario's section 5.3 and its record extract tell it. */
import { beforeAll, describe, expect, test } from 'vitest'
import { shopClock } from '../../seed/clock'
import { sealantState } from '../../shared/job/clocks'
import { decide } from '../../shared/job/decide'
import { againstRelease } from '../../shared/job/release'
import type { JobSummary } from '../../shared/job/summary'
import type { PlannedJob } from '../../shared/job/types'
import { deferredPositions, setView, standingMeasurement, stepState } from '../../shared/job/verdicts'
import { counts } from '../../shared/plan/counts'
import { indexPlan, signatureSets } from '../../shared/plan/read'
import type { Plan } from '../../shared/plan/types'
import { type DemoShop, demoShop } from './shop'

const clock = shopClock()
let shop: DemoShop
let job: PlannedJob
let summary: JobSummary

beforeAll(async () => {
  shop = await demoShop()
  job = await shop.job('e-101')
  const found = shop.desk.summaries().find(({ id }) => id === 'e-101')
  if (!found) throw new Error('E-101 has no summary.')
  summary = found
})

const standing = (which: string) =>
  summary.cells.filter((cell) => cell.standing === which).map(({ stepId }) => stepId)
const doneIn = (stage: string) =>
  summary.cells.filter((cell) => cell.standing === 'done' && summary.stages[cell.stage]?.id === stage).length
const stepOf = (id: string) => {
  const step = indexPlan(job.plan).stepById.get(id)
  if (!step) throw new Error(`no step ${id}`)
  return step
}
const read = (stepId: string, measurementId: string) =>
  stepOf(stepId)
    .measurements.find(({ id }) => id === measurementId)
    ?.places.map((place) => standingMeasurement(stepState(job, stepId), measurementId, place)?.value)

describe('the plan it carries', () => {
  test('50 steps, 180 fasteners, 91 of class A, 264 entries, nothing out of the ordinary', () => {
    expect(counts(job.plan as Plan)).toMatchObject({
      steps: 50,
      fasteners: 180,
      byClass: { A: 91, B: 85, C: 4 },
      oneUse: 20,
      entries: 264,
    })
    expect(job.plan.invented).toBe(true)
  })
})

describe('where it stands at 09:45', () => {
  test('31 of 50 steps, 55 % of the likely minutes, stage by stage', () => {
    expect(summary.signed).toBe(31)
    expect(Math.round((100 * summary.minutes.signed) / summary.minutes.all)).toBe(55)
    expect(summary.stages.map(({ id }) => [id, doneIn(id)])).toEqual([
      ['A', 3],
      ['B', 7],
      ['C', 9],
      ['D', 4],
      ['E', 4],
      ['F', 4],
      ['G', 0],
      ['H', 0],
      ['J', 0],
      ['K', 0],
    ])
  })

  test('F5 to resume, F7 and G1 to G4 ready; E1 and F8 on hold; the rest not ready', () => {
    expect(standing('stopped')).toEqual(['F5'])
    expect(standing('ready')).toEqual(['F7', 'G1', 'G2', 'G3', 'G4'])
    expect(standing('on_hold')).toEqual(['E1', 'F8'])
    const notReady = ['E5', 'F6', 'H1', 'H2', 'H3', 'J1', 'J2', 'J3', 'K1', 'K2', 'K3']
    expect(standing('not_ready')).toEqual(notReady)
    expect(summary.on).toEqual([])
  })

  test('the same is so when somebody asks: Bram may take each ready step, and none of the others', async () => {
    const context = {
      shop: await shop.desk.shop(),
      by: 'bram',
      doneAt: shop.now,
      commandId: 'a',
      through: 'sign_in' as const,
    }
    const answer = (stepId: string) => {
      const outcome = decide(job, { type: 'ClaimStep', stepId }, context)
      return 'refused' in outcome ? outcome.refused : 'taken'
    }
    const asked = ['F5', 'F7', 'G1', 'G2', 'G3', 'G4', 'E1', 'F8', 'E5', 'F6', 'H1', 'H2', 'A1'].map((id) => [
      id,
      answer(id),
    ])
    expect(Object.fromEntries(asked)).toEqual({
      F5: 'taken',
      F7: 'taken',
      G1: 'taken',
      G2: 'taken',
      G3: 'taken',
      G4: 'taken',
      E1: 'on_hold',
      F8: 'on_hold',
      E5: 'needs_open',
      F6: 'needs_open',
      H1: 'needs_open',
      H2: 'needs_open',
      A1: 'step_already_signed',
    })
  })

  test('it waits for the shim, not for the gasket that comes sooner, and says that work goes on', () => {
    expect(summary.reason).toMatchObject({ code: 'on_hold', kind: 'part', expectedAt: clock.at(6, '12:00') })
    expect(summary.reason).toHaveProperty('what', expect.stringContaining('pump shim 0.70'))
    expect(summary.promised).toBe(clock.date(9))
    expect(job.promises).toHaveLength(2)
  })

  test('F5 was left by Bram in pass 2 after nut 3, and that pass begins again', () => {
    expect(stepState(job, 'F5').stopped).toMatchObject({
      by: 'bram',
      at: [{ jointId: 'G-F5', pass: 2, position: 4, midPass: true, asks: 'again' }],
    })
  })

  test('housing bolt 7 is deferred to J1 by Jory, agreed with Bram; C6 is signed without it', () => {
    const deferral = deferredPositions(job, 'G-C6b').get(7)
    expect(deferral).toMatchObject({ dueStepId: 'J1', made: { by: 'jory', doneAt: clock.at(-6, '14:06') } })
    expect(deferral?.reason).toContain('Agreed with Bram')
    expect(job.readings['G-C6b']?.map(({ position }) => position)).toEqual([6])
    expect(summary.cells.find(({ stepId }) => stepId === 'C6')).toMatchObject({ dueAt: ['J1'] })
  })

  test('E1 keeps 19.1 against 16.5 to 17.5, measured by Bram', () => {
    const entry = standingMeasurement(stepState(job, 'E1'), 'spill-timing', 'cyl 1')
    expect(entry).toMatchObject({ value: 19.1, by: 'bram', inBand: false })
  })

  test('the anode plug has no value, and a release says so', () => {
    expect(job.settled).toEqual({})
    const against = againstRelease(job, 'to_fitting', shop.now)
    expect(against).toContainEqual(expect.objectContaining({ code: 'no_value', joint: 'G-F6' }))
    expect(against.filter(({ code }) => code === 'hold_open')).toHaveLength(2)
  })

  test('the slave bolts and TW-12 stand as notes at the steps where they matter', () => {
    const notes = (text: string) =>
      job.notes.filter((note) => note.text.includes(text)).map(({ stepId }) => stepId)
    expect(notes('Slave bolts')).toEqual(['C3', 'F1', 'F7'])
    expect(notes('TW-12 failed')).toEqual(['B2', 'C6', 'C7', 'C9', 'D1', 'E3'])
  })
})

describe('its record', () => {
  test('readings as measured', () => {
    expect(read('B1', 'main-clearance')).toEqual([0.044, 0.046, 0.045, 0.048])
    expect(read('B2', 'end-float')).toEqual([0.17])
    expect([read('B2', 'turning'), read('B4', 'turning')]).toEqual([[4.2], [13]])
    expect(read('B4', 'side-clearance')).toEqual([0.22, 0.24, 0.21])
    expect(read('B5', 'protrusion')).toEqual([0.62, 0.63, 0.61])
    expect([read('D3', 'inlet'), read('D3', 'exhaust')]).toEqual([
      [0.21, 0.2, 0.2],
      [0.25, 0.27, 0.25],
    ])
    expect(read('E2', 'resistance')).toEqual([0.8, 0.9, 0.8])
  })

  test.each([
    ['G-A3', 1, 1, 28, 'TW-11', 'bram', -11, '10:14', 'suvi', '10:20'],
    ['G-B2', 1, 2, 105, 'TW-12', 'bram', -9, '11:02', 'suvi', '11:30'],
    ['G-B4', 1, 3, 60, 'AG-02', 'suvi', -8, '14:41', 'bram', '14:50'],
    ['G-B4', 6, 3, 60, 'AG-02', 'suvi', -8, '15:18', 'bram', '15:20'],
    ['G-C6b', 6, 1, 45, 'TW-12', 'jory', -6, '14:05', undefined, ''],
    ['G-C7', 1, 2, 75, 'TW-12', 'bram', -6, '15:40', 'suvi', '15:52'],
    ['G-C9', 1, 2, 180, 'TW-12', 'bram', -6, '16:30', 'odile', '16:35'],
    ['G-D1', 1, 4, 60, 'AG-02', 'bram', -5, '11:48', 'suvi', '11:55'],
    ['G-E3', 1, 1, 65, 'TW-12', 'suvi', -5, '15:10', 'bram', '15:20'],
    ['G-F4', 1, 1, 22, 'TW-13', 'suvi', -2, '13:12', 'bram', '13:25'],
    ['G-F5', 1, 2, 22, 'TW-13', 'bram', 0, '08:20', undefined, ''],
  ] as const)(
    '%s position %i, pass %i',
    (joint, position, pass, value, wrenchId, by, day, time, second, looked) => {
      const reading = job.readings[joint]?.find((one) => one.position === position && one.pass === pass)
      expect(reading).toMatchObject({ value, wrenchId, by, doneAt: clock.at(day, time), flags: [] })
      const step = indexPlan(job.plan).stepOfJoint.get(joint)
      const set =
        step &&
        signatureSets(step).find(({ covers }) =>
          covers.some((cover) => cover.joint === joint && cover.positions.includes(position)),
        )
      const view = step && set && setView(job, step, set)
      expect(view?.state.second).toEqual(
        second ? { by: second, doneAt: clock.at(day, looked), through: 'sign_in' } : undefined,
      )
    },
  )

  test('the sump: first bead 10:02, last bolt 10:09 of 8 minutes, cured at 22:09, a minute before not', () => {
    expect(stepState(job, 'C5').sealant).toEqual([
      {
        started: { by: 'suvi', doneAt: clock.at(-6, '10:02') },
        closed: { by: 'suvi', doneAt: clock.at(-6, '10:09') },
      },
    ])
    const at = (time: string) => sealantState(job, stepOf('C5'), clock.at(-6, time)).state
    expect([at('22:08'), at('22:09')]).toEqual(['curing', 'cured'])
  })

  test('no reading carries a flag, and everything class A that is signed is proven', () => {
    expect(
      Object.values(job.readings)
        .flat()
        .filter(({ flags }) => flags.length > 0),
    ).toEqual([])
    const open = standing('done')
      .map(stepOf)
      .filter((step) => step.joints.some((joint) => joint.class === 'A'))
      .flatMap((step) => signatureSets(step).map((set) => setView(job, step, set)))
      .filter((view) => !view.proven)
    expect(open).toEqual([])
  })
})
