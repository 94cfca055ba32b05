/** Opening a job, adopting a plan, and what every command needs first. */
import { describe, expect, test } from 'vitest'
import type { AsPrinted, Pass } from '../../../../shared/plan/types'
import { adoptPlan, claim, open, shows } from '../../../shop/acts'
import { fresh, given } from '../../../shop/given'
import { joint, plan, step } from '../../../shop/plan'
import { testPlan } from '../../../shop/plans/test-engine'
import { testShop } from '../../../shop/shop'
import { START } from '../../../shop/time'

describe('every command', () => {
  test('[FW4] a stranger is refused before anything else is looked at', () => {
    fresh()
      .when(open({ by: 'nobody' }))
      .refuses('person_unknown', { by: 'nobody' })
    fresh()
      .when(claim('head', { by: 'nobody' }))
      .refuses('person_unknown')
    given()
      .when(shows('JH', 2, 30, { by: 'nobody' }))
      .refuses('person_unknown')
  })
  test('[FW4] a name that every object has is a stranger too', () => {
    fresh()
      .when(open({ by: 'constructor' }))
      .refuses('person_unknown')
    fresh()
      .when(open({ by: '__proto__' }))
      .refuses('person_unknown')
  })
  test('[FW5] nothing but opening goes before the job is open', () => {
    fresh().when(adoptPlan()).refuses('job_not_open')
    fresh().when(claim('head')).refuses('job_not_open')
  })
  test('[FW6] nothing but adopting goes before there is a plan', () => {
    fresh(open()).when(claim('head')).refuses('no_plan')
    fresh(open())
      .when(shows('JH', 2, 30))
      .refuses('no_plan')
  })
})

describe('opening a job', () => {
  test.each(['wim', 'dee'])('[OJ4] %s opens it, and it says what was agreed', (by) => {
    const then = fresh().when(open({ by, number: 'E-7', at: 3, clockOffsetMs: -250 }))
    then.gives({ type: 'JobOpened', number: 'E-7', by, doneAt: START + 180_000, clockOffsetMs: -250 })
    expect(then.job).toMatchObject({
      number: 'E-7',
      agreed: 'Rebuild',
      owner: 'An owner',
      openedAt: START + 180_000,
      version: 1,
    })
  })
  test('[OJ1] an open one stays as it is, whoever asks', () => {
    fresh(open())
      .when(open({ number: 'E-2' }))
      .refuses('job_already_open', { number: 'E-1' })
    fresh(open())
      .when(open({ by: 'ana' }))
      .refuses('job_already_open')
  })
  test('[OJ2] a technician does not open one, even under a taken number', () => {
    fresh()
      .when(open({ by: 'ana', numberTaken: () => true }))
      .refuses('role_needed', {
        what: 'open a job',
        roles: ['service_writer', 'supervisor', 'owner'],
      })
  })
  test('[OJ3] two engines never carry one number', () => {
    fresh()
      .when(open({ number: 'E-9', numberTaken: (number) => number === 'E-9' }))
      .refuses('number_taken', { number: 'E-9' })
    fresh()
      .when(open({ number: 'E-8', numberTaken: (number) => number === 'E-9' }))
      .gives({ type: 'JobOpened', number: 'E-8' })
  })
})

describe('adopting a plan', () => {
  test('[AP5] the copy carries its bands as the shop’s tolerances stand that day', () => {
    const then = fresh(open())
      .inShop({ tolerances: { percent: { A: 4, B: 10, C: 15 }, angleDeg: 5 } })
      .when(adoptPlan())
    then.gives({ type: 'PlanAdopted', by: 'dee' })
    const bands = then.job.plan.steps.flatMap(({ joints }) => joints.map(({ id, bands }) => [id, bands]))
    expect(Object.fromEntries(bands)).toMatchObject({
      JC: [{ kind: 'torque', minNm: 48, maxNm: 52, from: 'shop' }],
      JH: [
        { kind: 'torque', minNm: 28, maxNm: 32, from: 'maker' },
        { kind: 'angle', minDeg: 85, maxDeg: 95, from: 'plan' },
      ],
      JR: [{ minNm: 18, maxNm: 22 }, null, null, { minNm: 22.5, maxNm: 27.5 }],
      JN: [null],
    })
  })
  test('[AP5] a tolerance changed later moves no band', () => {
    given(claim('caps'))
      .inShop({ tolerances: { percent: { A: 0.1, B: 0.1, C: 0.1 }, angleDeg: 0 } })
      .when(shows('JC', 2, 52))
      .flags()
  })
  test('[AP1] the same plan a second time changes nothing, whoever asks', () => {
    given().when(adoptPlan()).thenNothing()
    given()
      .when(adoptPlan({ by: 'ana' }))
      .thenNothing()
  })
  test('[AP2] a plan is the supervisor’s to choose', () => {
    fresh(open())
      .when(adoptPlan({ by: 'wim', planId: 'none' }))
      .refuses('role_needed', { roles: ['supervisor', 'owner'] })
    given()
      .when(adoptPlan({ by: 'ana', edition: 2 }))
      .refuses('role_needed')
  })
  test('[AP3] a job keeps the plan it adopted', () => {
    given()
      .when(adoptPlan({ edition: 2 }))
      .refuses('plan_already_adopted', { title: testPlan.title, edition: 1 })
    given()
      .when(adoptPlan({ planId: 'none' }))
      .refuses('plan_already_adopted')
  })
  test('[AP6] a plan whose torque the fastener cannot bear is not adopted, unless that value was taken as printed', () => {
    const page = { photo: 'a'.repeat(64), reason: 'the maker confirmed it by letter' }
    const asking = (torqueNm: number, asPrinted?: AsPrinted) => {
      const passes: Pass[] = [{ kind: 'torque', torqueNm, ...(asPrinted ? { asPrinted } : {}) }]
      const wrong = plan({ id: 'wrong', steps: [step('A1', { joints: [joint('J1', { passes })] })] })
      return fresh(open())
        .inShop({ plans: { wrong: { 1: wrong } } })
        .when(adoptPlan({ planId: 'wrong' }))
    }
    const judged = { torque: { nominalNm: 60 } }
    asking(60).refuses('torque_impossible', { stepId: 'A1', title: 'Joint J1', pass: 1, judged })
    asking(60, { ...page, torqueNm: 60 }).gives({ type: 'PlanAdopted' })
    // Another value than the one that was taken is not taken with it.
    asking(60, { ...page, torqueNm: 55 }).refuses('torque_impossible')
    asking(22).gives({ type: 'PlanAdopted' })
  })
  test('[AP6] nor one whose highest limit it cannot bear', () => {
    const limits = { minNm: 20, maxNm: 90, from: 'maker' } as const
    const joints = [joint('J1', { passes: [{ kind: 'torque', torqueNm: 22, limits }] })]
    fresh(open())
      .inShop({ plans: { wrong: { 1: plan({ id: 'wrong', steps: [step('A1', { joints })] }) } } })
      .when(adoptPlan({ planId: 'wrong' }))
      .refuses('torque_impossible', { judged: { torque: { nominalNm: 22, maxNm: 90 } } })
  })
  test('[AP6] nor one whose band in this shop goes higher than it can bear', () => {
    const joints = [joint('J1', { lubrication: 'engine oil', passes: [{ kind: 'torque', torqueNm: 26 }] })]
    const wide = (percent: number) =>
      fresh(open())
        .inShop({
          plans: { wide: { 1: plan({ id: 'wide', steps: [step('A1', { joints })] }) } },
          tolerances: { percent: { A: percent, B: percent, C: percent }, angleDeg: 5 },
        })
        .when(adoptPlan({ planId: 'wide' }))
    wide(10).gives({ type: 'PlanAdopted' })
    wide(90).refuses('torque_impossible', { judged: { torque: { nominalNm: 26, limitsFrom: 'shop' } } })
  })
  test('[AP4] a plan the library has not is named', () => {
    fresh(open())
      .when(adoptPlan({ planId: 'none' }))
      .refuses('plan_not_found', { planId: 'none', edition: 1 })
    fresh(open())
      .when(adoptPlan({ edition: 2 }))
      .refuses('plan_not_found', { edition: 2 })
    fresh(open())
      .when(adoptPlan({ planId: 'constructor' }))
      .refuses('plan_not_found')
    expect(testShop.plans['test-engine']?.[1]).toBe(testPlan)
  })
})
