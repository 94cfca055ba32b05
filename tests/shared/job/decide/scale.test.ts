/** The number on the wrench's scale. */
import { describe, expect, test } from 'vitest'
import { claim, click, scale, sign } from '../../../shop/acts'
import { given } from '../../../shop/given'
import { headTurned } from '../../../shop/stories'
import { START } from '../../../shop/time'
import { crib } from '../../../shop/wrenches'

describe('entering the scale', () => {
  test('[SC5] it is recorded with the wrench as it was then, the band, and what it applies', () => {
    const then = given().when(scale('JH', 30, { at: 7 }))
    const { title: _, ...card } = crib.click ?? {}
    then.gives({ type: 'ScaleEntered', jointId: 'JH', pass: 1, value: 30, unit: 'N·m', appliesNm: 30 })
    expect(then.events[0]).toMatchObject({
      wrench: card,
      band: { minNm: 28, maxNm: 32, from: 'maker' },
      by: 'ana',
      doneAt: START + 7 * 60_000,
    })
    expect(then.events[0]).not.toHaveProperty('slip')
    expect(then.job.scales.click).toMatchObject({ value: 30 })
    expect(then.job.scaleLog).toHaveLength(1)
  })
  test('[SC5] anybody’s, without a claim, at any number', () => {
    given()
      .when(scale('JH', 0, { by: 'wim' }))
      .gives({ type: 'ScaleEntered', value: 0, by: 'wim' })
    given().when(scale('JH', 999_999)).gives({ type: 'ScaleEntered' })
    given().when(scale('JN', 12)).gives({ type: 'ScaleEntered', band: null })
    given()
      .when(scale('JR', 12, { pass: 3 }))
      .gives({ type: 'ScaleEntered', band: null })
  })
  test('[SC1] a joint the plan has not', () => {
    given()
      .when(scale('none', 30, { pass: 9, wrenchId: 'none' }))
      .refuses('joint_not_found', { jointId: 'none' })
  })
  test('[SC2] a pass the joint has not', () => {
    given()
      .when(scale('JH', 30, { pass: 3, wrenchId: 'none' }))
      .refuses('pass_not_found', { pass: 3, passes: 2 })
    given()
      .when(scale('JH', 30, { pass: 0 }))
      .refuses('pass_not_found')
  })
  test('[SC3] a wrench the crib has not: nobody knows the unit on its scale', () => {
    given()
      .when(scale('JH', 30, { wrenchId: 'none' }))
      .refuses('wrench_not_found', { wrenchId: 'none' })
    given()
      .when(scale('JH', 30, { wrenchId: 'constructor' }))
      .refuses('wrench_not_found')
    given()
      .when(scale('JH', 30, { wrenchId: '__proto__' }))
      .refuses('wrench_not_found')
  })
  test('[SC4] an angle gauge has no torque scale', () => {
    given()
      .when(scale('JH', 30, { wrenchId: 'gauge' }))
      .refuses('wrench_has_no_torque_scale', { wrenchId: 'gauge' })
  })
  test('[SC6] an adapter is reckoned in, into what is applied and into the click', () => {
    const adapter = { wrenchMm: 400, adapterMm: 100, angleDeg: 0 }
    given()
      .when(scale('JH', 24, { adapter }))
      .gives({ type: 'ScaleEntered', value: 24, appliesNm: 30, adapter })
    const clicked = given(claim('head'), scale('JH', 24, { adapter })).when(click('JH', 2))
    expect(clicked.flags().reading).toMatchObject({ value: 24, torqueNm: 30 })
  })
  test('[SC7] a number that fits only in another unit is held up with both readings', () => {
    const then = given().when(scale('JH', 30, { wrenchId: 'foot' }))
    expect(then.events[0]).toMatchObject({
      slip: { value: 30, readAs: 'lbf·ft', fitsAs: 'N·m', fitsNm: 30 },
      appliesNm: expect.closeTo(40.6745, 4),
    })
    expect(given().when(scale('JH', 22.1, { wrenchId: 'foot' })).events[0]).not.toHaveProperty('slip')
    expect(given().when(scale('JH', 3)).events[0]).not.toHaveProperty('slip')
  })
  test('[SC8] counts for the hand, the joint and the pass it was entered for', () => {
    given(claim('head'), scale('JH', 30)).when(click('JH', 2)).flags()
    given(claim('head'), scale('JH', 30, { by: 'bo' }))
      .when(click('JH', 2))
      .flags('scale_not_entered')
    given(claim('head'), scale('JC', 30)).when(click('JH', 2)).flags('scale_not_entered')
    given(claim('head'), scale('JH', 30, { pass: 2 }))
      .when(click('JH', 2))
      .flags('scale_not_entered')
    given(claim('head'), scale('JH', 30, { wrenchId: 'foot' }))
      .when(click('JH', 2))
      .flags('scale_not_entered')
  })
  test('[SC8] the last number entered is the one on the scale', () => {
    const then = given(claim('head'), scale('JH', 20), scale('JH', 31)).when(click('JH', 2))
    expect(then.flags().reading).toMatchObject({ value: 31, torqueNm: 31 })
  })
  test('[SC9] is forgotten with the doer’s last signature', () => {
    const then = given(headTurned(), scale('JH', 30)).when(sign('head'))
    expect(then.before.scales).toHaveProperty('click')
    expect(then.job.scales).toEqual({})
  })
})
