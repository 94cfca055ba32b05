/** One fastener in one pass: always recorded; every flag raised, and not raised; and struck. */
import { describe, expect, test } from 'vitest'
import { standingReading } from '../../../../shared/job/verdicts'
import {
  claim,
  click,
  type Given,
  handOver,
  place,
  putDown,
  scale,
  secondSign,
  settle,
  shows,
  sign,
  slacken,
  strike,
  turn,
} from '../../../shop/acts'
import { floor, given } from '../../../shop/given'
import { entry } from '../../../shop/ids'
import { people } from '../../../shop/people'
import { all, headProven, headSigned, headTorqued, headTurned, rodsProven } from '../../../shop/stories'
import { START } from '../../../shop/time'
import { crib } from '../../../shop/wrenches'

const MINUTE = 60_000

const reseatTorqued = (at = 5): Given[] => [
  claim('reseat'),
  [1, 2].map((n) => shows('JR', n, 20)),
  [1, 2].map((n) => slacken('JR', n, { pass: 2, at })),
]

describe('what names nothing', () => {
  test('[RD1] a joint the plan has not', () => {
    given()
      .when(click('none', 9, { pass: 9 }))
      .refuses('joint_not_found', { jointId: 'none' })
    given().when(click('constructor', 1)).refuses('joint_not_found')
  })
  test('[RD2] a position the joint has not', () => {
    given()
      .when(click('JH', 5, { pass: 9 }))
      .refuses('position_not_found', { position: 5, positions: [1, 2, 3, 4] })
    given().when(click('JH', 0)).refuses('position_not_found')
  })
  test('[RD3] a pass the joint has not', () => {
    given()
      .when(shows('JH', 2, 30, { pass: 3, value: undefined }))
      .refuses('pass_not_found', { pass: 3, passes: 2 })
    given()
      .when(click('JH', 2, { pass: 0 }))
      .refuses('pass_not_found')
  })
  test('[RD4] a reading that shows a number, without its number', () => {
    const { command } = shows('JH', 2, 30)
    const without = { ...command, value: undefined } as typeof command
    given().when({ command: without, by: 'ana' }).refuses('value_missing', { position: 2, how: 'indicated' })
    given()
      .when({ command: { ...without, how: 'turned', pass: 2 } as typeof command, by: 'ana' })
      .refuses('value_missing', { how: 'turned' })
    given()
      .when({ command: { ...without, how: 'slackened' } as typeof command, by: 'ana' })
      .gives({ type: 'ReadingTaken' })
  })
})

describe('a reading is a fact', () => {
  test('[RD22] it is recorded with the wrench as it was, its unit and the band in force', () => {
    const then = given(claim('head')).when(shows('JH', 2, 30.5, { at: 9 }))
    const { title: _, ...card } = crib.dial ?? {}
    expect(then.flags().reading).toEqual({
      type: 'ReadingTaken',
      by: 'ana',
      doneAt: START + 9 * MINUTE,
      id: '00000004',
      jointId: 'JH',
      position: 2,
      pass: 1,
      how: 'indicated',
      wrenchId: 'dial',
      wrench: card,
      value: 30.5,
      unit: 'N·m',
      torqueNm: 30.5,
      band: { kind: 'torque', minNm: 28, maxNm: 32, from: 'maker' },
      flags: [],
    })
  })
  test('[RD22] another unit is kept as read and reckoned exactly', () => {
    const { reading } = given(claim('head'))
      .inShop({ wrenches: { foot: { ...crib.dial, id: 'foot', unit: 'lbf·ft' } as never } })
      .when(shows('JH', 2, 22, { wrenchId: 'foot' }))
    expect(reading).toMatchObject({ value: 22, unit: 'lbf·ft', flags: [] })
    expect(reading.torqueNm).toBeCloseTo(29.827994863, 9)
  })
  test('[FW1] the worst of it is recorded all the same', () => {
    given(headProven())
      .when(shows('JH', 3, 999_999, { by: 'wim', wrenchId: 'failed', pass: 2 }))
      .gives({ type: 'ReadingTaken', by: 'wim' }, { type: 'SignaturesLapsed', stepId: 'head', setId: 'step' })
  })
  test('[RD21] a second reading in a pass supersedes the first, and both stay', () => {
    const { job } = given(claim('head'), shows('JH', 2, 30)).when(shows('JH', 2, 31))
    expect(job.readings.JH).toMatchObject([
      { torqueNm: 30, superseded: { by: 'ana', because: 'retaken' } },
      { torqueNm: 31 },
    ])
    expect(job.readings.JH?.[1]).not.toHaveProperty('superseded')
  })
  test('[RD20] slackening takes the fastener back: every pass of it, and of no other', () => {
    const { job } = given(headTorqued(), turn('JH', 2, 90))
      .when(slacken('JH', 2))
      .flags()
    const of = (n: number) => job.readings.JH?.filter(({ position }) => position === n)
    expect(of(2)).toMatchObject([
      { torqueNm: 30, superseded: { because: 'slackened' } },
      { angleDeg: 90, superseded: { because: 'slackened' } },
      { how: 'slackened' },
    ])
    expect(of(1)?.[0]).not.toHaveProperty('superseded')
  })
  test('[RD20] in a slacken pass it is the pass, and the torque before it stands', () => {
    const { job } = given(reseatTorqued())
    expect(job.readings.JR?.filter((reading) => 'superseded' in reading)).toEqual([])
    const joint = job.plan.steps.flatMap(({ joints }) => joints).find(({ id }) => id === 'JR')
    expect(joint && standingReading(job, joint, 1, 2)).toMatchObject({ how: 'slackened', flags: [] })
  })
})

describe('[RD5] not_claimed', () => {
  test('raised for whoever does not hold the step', () => {
    given()
      .when(shows('JV', 1, 10))
      .flags('not_claimed')
    given(claim('head'))
      .when(shows('JH', 2, 30, { by: 'bo' }))
      .flags('not_claimed')
    given(headSigned())
      .when(shows('JH', 2, 30))
      .flags('not_claimed')
  })
  test('not raised for the one who holds it', () => {
    given(claim('head'))
      .when(shows('JH', 2, 30))
      .flags()
  })
})

describe('[RD6] out_of_order', () => {
  test('raised where the plan gives an order and another comes next', () => {
    given(claim('head'))
      .when(shows('JH', 1, 30))
      .flags('out_of_order')
    given(claim('head'), shows('JH', 2, 30))
      .when(shows('JH', 4, 30))
      .flags('out_of_order')
  })
  test('not raised for the next one, for a retaken one, or where any order is right', () => {
    given(claim('head'), shows('JH', 2, 30))
      .when(shows('JH', 1, 30))
      .flags()
    given(claim('head'), shows('JH', 2, 30))
      .when(shows('JH', 2, 31))
      .flags()
    given(claim('reseat'))
      .when(shows('JR', 2, 20))
      .flags()
  })
  test('raised in the next pass while the round before is open', () => {
    given(claim('head'), shows('JH', 2, 30))
      .when(turn('JH', 2, 90))
      .flags('out_of_order')
    given(headTorqued())
      .when(turn('JH', 2, 90))
      .flags()
  })
  test('one cap is a round of its own', () => {
    given(claim('caps'))
      .when(shows('JC', 4, 50))
      .flags()
    given(claim('caps'))
      .when(shows('JC', 3, 50))
      .flags('out_of_order')
  })
  test('not raised by taking a fastener back', () => {
    given(claim('head')).when(slacken('JH', 3)).flags()
  })
})

describe('[RD7] pass_skipped', () => {
  test('raised while an earlier pass of this fastener is missing', () => {
    given(claim('head'))
      .when(turn('JH', 2, 90))
      .flags('pass_skipped')
    given(claim('reseat'))
      .when(shows('JR', 1, 25, { pass: 4 }))
      .flags('pass_skipped')
  })
  test('raised again once the fastener was taken back', () => {
    given(headTorqued(), slacken('JH', 2))
      .when(turn('JH', 2, 90))
      .flags('pass_skipped')
  })
  test('not raised when all are there', () => {
    given(headTorqued())
      .when(turn('JH', 2, 90))
      .flags()
  })
})

describe('[RD8] too_early', () => {
  test('raised a millisecond before the wait is over, counted from the last of the round', () => {
    given(reseatTorqued(10))
      .when(shows('JR', 1, 25, { pass: 4, at: 40 - 1 / MINUTE }))
      .flags('too_early')
  })
  test('not raised when it is just over', () => {
    given(reseatTorqued(10))
      .when(shows('JR', 1, 25, { pass: 4, at: 40 }))
      .flags()
  })
})

describe('[RD9] turned_again', () => {
  test('raised by a second turn of the same fastener in the same pass', () => {
    given(headTorqued(), turn('JH', 2, 45))
      .when(turn('JH', 2, 90))
      .flags('turned_again')
  })
  test('not raised by the first, nor after it was taken back and torqued again', () => {
    given(headTorqued())
      .when(turn('JH', 2, 90))
      .flags()
    given(headTorqued(), turn('JH', 2, 45), slacken('JH', 2), shows('JH', 2, 30))
      .when(turn('JH', 2, 90))
      .flags()
  })
})

describe('[RD10] not_slackened', () => {
  test('raised when the fastener was over its band and is read again without being slackened', () => {
    given(claim('head'), shows('JH', 2, 32.000001))
      .when(shows('JH', 2, 30))
      .flags('not_slackened')
  })
  test('stays while nobody slackens', () => {
    given(claim('head'), shows('JH', 2, 40), shows('JH', 2, 30))
      .when(shows('JH', 2, 30))
      .flags('not_slackened')
  })
  test('not raised after slackening, after the entry was struck, after too little, or by the angle that follows', () => {
    given(claim('head'), shows('JH', 2, 40), slacken('JH', 2))
      .when(shows('JH', 2, 30))
      .flags()
    given(claim('head'), shows('JH', 2, 40), strike(entry(2)))
      .when(shows('JH', 2, 30))
      .flags()
    given(claim('head'), shows('JH', 2, 20))
      .when(shows('JH', 2, 30))
      .flags()
    given(claim('head'), shows('JH', 2, 32))
      .when(shows('JH', 2, 30))
      .flags()
    given(claim('head'), shows('JH', 1, 40))
      .when(shows('JH', 2, 30))
      .flags()
  })
})

describe('[RD11] other_than_asked', () => {
  test('raised by a torque where an angle is asked, and the other way round', () => {
    given(headTorqued())
      .when(shows('JH', 2, 30, { pass: 2 }))
      .flags('other_than_asked')
    given(claim('head'))
      .when(turn('JH', 2, 90, { pass: 1 }))
      .flags('other_than_asked')
  })
  test('raised by anything but slackening in a slacken pass, and by anything in a wait', () => {
    given(claim('reseat'), shows('JR', 1, 20), shows('JR', 2, 20))
      .when(shows('JR', 1, 20, { pass: 2 }))
      .flags('other_than_asked')
    given(reseatTorqued())
      .when(shows('JR', 1, 20, { pass: 3 }))
      .flags('other_than_asked')
  })
  test('raised when a torque is read off an angle gauge', () => {
    const { reading } = given(claim('head'))
      .when(shows('JH', 2, 30, { wrenchId: 'gauge' }))
      .flags('other_than_asked')
    expect(reading).toMatchObject({ value: 30, unit: 'deg' })
    expect(reading).not.toHaveProperty('torqueNm')
  })
  test('not raised by what is asked', () => {
    given(reseatTorqued())
      .when(shows('JR', 1, 25, { pass: 4, at: 60 }))
      .flags()
    given(claim('head'))
      .when(shows('JH', 2, 30))
      .flags()
  })
})

describe('[RD12] no_published_value', () => {
  test('raised where the plan gives no torque, whatever is read', () => {
    given(claim('drain'))
      .when(shows('JN', 1, 12))
      .flags('no_published_value')
    given(claim('drain'), scale('JN', 12)).when(click('JN', 1)).flags('no_published_value')
  })
  test('not raised where it gives one', () => {
    given(claim('reseat'))
      .when(shows('JR', 1, 20))
      .flags()
  })
})

describe('[RD27] torque_impossible', () => {
  test('a reading the fastener cannot bear is recorded and flagged, at whatever pass, and stops the signature', () => {
    given(claim('head'))
      .when(shows('JH', 2, 400))
      .flags('out_of_band', 'torque_impossible', 'wrench_out_of_range')
    given(claim('head'), scale('JH', 400))
      .when(click('JH', 2))
      .flags('out_of_band', 'torque_impossible', 'wrench_out_of_range')
    given(claim('drain'), settle('JN', 12), shows('JN', 1, 400))
      .when(sign('drain'))
      .refuses('flags_stand', { position: 1 })
  })
  test('one that is merely out of band is not', () => {
    given(claim('head'))
      .when(shows('JH', 2, 40))
      .flags('out_of_band')
  })
})

describe('[RD13] out_of_band', () => {
  test.each([28, 32, 30])('%d N·m is in: both limits are', (value) => {
    given(claim('head'))
      .when(shows('JH', 2, value))
      .flags()
  })
  test.each([27.999999, 32.000001, 6])('%d N·m is out: a micro-newton-metre is enough', (value) => {
    given(claim('head'))
      .when(shows('JH', 2, value))
      .flags('out_of_band')
  })
  test('limits made of percentages are hit exactly too', () => {
    given(claim('reseat'))
      .when(shows('JR', 1, 22))
      .flags()
    given(claim('reseat'))
      .when(shows('JR', 1, 22.000001))
      .flags('out_of_band')
    given(claim('reseat'))
      .when(shows('JR', 1, 18))
      .flags()
    given(claim('reseat'))
      .when(shows('JR', 1, 17.999999))
      .flags('out_of_band')
  })
  test.each([85, 95])('%d° is in', (value) => {
    given(headTorqued())
      .when(turn('JH', 2, value))
      .flags()
  })
  test.each([84.999999, 95.000001])(
    '[RD25] %d° is out, and past what the joint lets stand it is overshot',
    (value) => {
      given(headTorqued())
        .when(turn('JH', 2, value))
        .flags('out_of_band', ...(value > 95 ? (['overshot'] as const) : []))
    },
  )
  test('a click counts as what its scale applies', () => {
    given(claim('head'), scale('JH', 32)).when(click('JH', 2)).flags()
    given(claim('head'), scale('JH', 32.000001)).when(click('JH', 2)).flags('out_of_band')
  })
  test('a number in another unit is judged in newton-metres', () => {
    given(claim('head'), scale('JH', 22.1, { wrenchId: 'foot' }))
      .when(click('JH', 2, { wrenchId: 'foot' }))
      .flags()
  })
})

describe('[RD14] unit_held_up', () => {
  test('raised when the number misses the band and meets it in another unit of the crib', () => {
    const then = given(claim('head'))
      .when(shows('JH', 2, 22))
      .flags('out_of_band', 'unit_held_up')
    expect(then.reading.slip).toMatchObject({ value: 22, readAs: 'N·m', readNm: 22, fitsAs: 'lbf·ft' })
    expect(then.reading.slip?.fitsNm).toBeCloseTo(29.828, 3)
  })
  test('raised by every click at such a setting', () => {
    const then = given(claim('head'), scale('JH', 30, { wrenchId: 'foot' })).when(
      click('JH', 2, { wrenchId: 'foot' }),
    )
    then.flags('out_of_band', 'unit_held_up')
    expect(then.reading).toMatchObject({ value: 30, unit: 'lbf·ft', slip: { fitsAs: 'N·m', fitsNm: 30 } })
  })
  test('not raised when the person says that it reads so, or when no unit of the crib fits', () => {
    given(claim('head'))
      .when(shows('JH', 2, 22, { readsSo: true }))
      .flags('out_of_band')
    given(claim('head'))
      .when(shows('JH', 2, 6))
      .flags('out_of_band')
    const { click: only, dial } = crib
    given(claim('head'))
      .inShop({ wrenches: { click: only, dial } as never })
      .when(shows('JH', 2, 22))
      .flags('out_of_band')
  })
  test('not raised when it fits as it stands', () => {
    expect(
      given(claim('head'))
        .when(shows('JH', 2, 30))
        .flags().reading,
    ).not.toHaveProperty('slip')
  })
})

describe('[RD15] scale_not_entered', () => {
  test('raised by a click nobody entered a number for', () => {
    const { reading } = given(claim('head')).when(click('JH', 2)).flags('scale_not_entered')
    expect(reading).not.toHaveProperty('torqueNm')
  })
  test('not raised after it is entered; the click names the entry', () => {
    const then = given(claim('head'), scale('JH', 30)).when(click('JH', 2)).flags()
    expect(then.reading.scaleId).toBe(then.before.scales.click?.id)
  })
})

describe('[RD16] wrench_unknown', () => {
  test('raised by a wrench the crib has not, and by none', () => {
    given(claim('head'))
      .when(shows('JH', 2, 30, { wrenchId: 'borrowed' }))
      .flags('wrench_unknown')
    given(claim('head'))
      .when(shows('JH', 2, 30, { wrenchId: '__proto__' }))
      .flags('wrench_unknown')
    const { command } = shows('JH', 2, 30)
    const bare = { ...command, wrenchId: undefined } as typeof command
    given(claim('head')).when({ command: bare, by: 'ana' }).flags('wrench_unknown')
  })
  test('not raised by an angle turned without a gauge: marks on the head do as well', () => {
    const { command } = turn('JH', 2, 90)
    const bare = { ...command, wrenchId: undefined } as typeof command
    given(headTorqued()).when({ command: bare, by: 'ana' }).flags()
    given(headTorqued())
      .when(turn('JH', 2, 90, { wrenchId: 'borrowed' }))
      .flags('wrench_unknown')
  })
})

describe('[RD17] wrench_out_of_range', () => {
  test('raised outside what the scale covers, in the scale’s unit', () => {
    given(claim('caps'), scale('JC', 61)).when(click('JC', 2)).flags('out_of_band', 'wrench_out_of_range')
    given(claim('head'), scale('JH', 4.9)).when(click('JH', 2)).flags('out_of_band', 'wrench_out_of_range')
    given(claim('drain'))
      .when(shows('JN', 1, 100.1))
      .flags('no_published_value', 'wrench_out_of_range')
  })
  test('not raised at either end of it', () => {
    given(claim('drain'))
      .when(shows('JN', 1, 100))
      .flags('no_published_value')
    given(claim('drain'))
      .when(shows('JN', 1, 5))
      .flags('no_published_value')
  })
})

describe('[RD18] wrench_out_of_date', () => {
  test('raised past the day its check was due', () => {
    given(claim('head'))
      .when(shows('JH', 2, 30, { wrenchId: 'stale' }))
      .flags('wrench_out_of_date')
    const dial = { ...crib.dial, dueAt: START - 1 } as never
    given(claim('head'))
      .inShop({ wrenches: { dial } })
      .when(shows('JH', 2, 30, { at: 0 }))
      .flags('wrench_out_of_date')
  })
  test('not raised on the moment itself, nor without a date', () => {
    const dial = { ...crib.dial, dueAt: START } as never
    given(claim('head'))
      .inShop({ wrenches: { dial } })
      .when(shows('JH', 2, 30, { at: 0 }))
      .flags()
    const undated = { ...crib.dial, dueAt: undefined } as never
    given(claim('head'))
      .inShop({ wrenches: { dial: undated } })
      .when(shows('JH', 2, 30))
      .flags()
  })
})

describe('[RD19] wrench_failed', () => {
  test.each(['failed', 'out_for_check', 'dropped'] as const)('raised while it is %s', (state) => {
    const dial = { ...crib.dial, state } as never
    given(claim('head'))
      .inShop({ wrenches: { dial } })
      .when(shows('JH', 2, 30))
      .flags('wrench_failed')
  })
  test('not raised in service; the wrench of that day stays in the reading', () => {
    given(claim('head'))
      .when(shows('JH', 2, 30))
      .flags()
    const { reading } = given(claim('head'))
      .when(shows('JH', 2, 30, { wrenchId: 'failed' }))
      .flags('wrench_failed')
    expect(reading.wrench).toMatchObject({ id: 'failed', state: 'failed' })
  })
})

describe('[LP1] a reading takes back the signatures it lies under', () => {
  test('both of them, of that set only', () => {
    given(headProven())
      .when(shows('JH', 2, 30))
      .gives(
        { type: 'ReadingTaken' },
        { type: 'SignaturesLapsed', stepId: 'head', setId: 'step', because: 'reading' },
      )
    const caps = given(
      claim('caps'),
      [2, 1].map((n) => shows('JC', n, 50)),
      [4, 3].map((n) => shows('JC', n, 50)),
      sign('caps', { setId: 'cap-1' }),
      sign('caps', { setId: 'cap-2' }),
      secondSign('caps', { setId: 'cap-1' }),
    ).when(shows('JC', 3, 50))
    caps.gives({ type: 'ReadingTaken' }, { type: 'SignaturesLapsed', setId: 'cap-2' })
    expect(caps.job.steps.caps?.sets).toEqual({
      'cap-1': { first: expect.anything(), second: expect.anything() },
      'cap-2': { lapsed: 1 },
    })
  })
  test('nothing lapses where nothing is signed', () => {
    given(headTurned())
      .when(shows('JH', 2, 30))
      .gives({ type: 'ReadingTaken' })
  })
})

describe('traps of the scenario', () => {
  test('T7: out of band, slackened, done again: both readings stay, the first in the trail only', () => {
    const story = floor(claim('housing'), shows('JB', 3, 26.4))
    story.when(sign('housing')).refuses('positions_open')
    const { job } = floor(
      claim('housing'),
      shows('JB', 3, 26.4),
      slacken('JB', 3),
      place('JB', [3]),
      shows('JB', 3, 22),
    )
    expect(
      job.readings.JB?.map(({ torqueNm, flags, superseded }) => [torqueNm, flags, superseded?.because]),
    ).toEqual([
      [26.4, ['out_of_band'], 'slackened'],
      [undefined, [], undefined],
      [22, [], undefined],
    ])
    floor(claim('housing'), shows('JB', 3, 26.4))
      .when(shows('JB', 3, 22))
      .flags('not_slackened')
  })
  test('T8: nine in foot-pounds for nine newton-metres is held up, with both readings', () => {
    const then = floor(claim('trial')).when({
      command: { type: 'EnterScale', jointId: 'JY', pass: 1, wrenchId: 'foot', value: 12 },
      by: 'ana',
    })
    then.gives({
      type: 'ScaleEntered',
      unit: 'lbf·ft',
      slip: { value: 12, readAs: 'lbf·ft', readNm: expect.closeTo(16.27, 2), fitsAs: 'N·m', fitsNm: 12 },
    })
  })
  test('T11: an apprentice is offered class C and nothing above', () => {
    const offered = floor().job.plan.steps.filter(
      ({ id }) => !('refused' in floor().when(claim(id, { by: 'cy' })).outcome),
    )
    expect(offered.map(({ id }) => id)).toEqual(['trial', 'seal', 'lift'])
    floor(claim('trial')).when(handOver('trial', 'cy')).gives({ type: 'StepHandedOver' })
    expect(people.cy.mayDo.classes).toEqual(['C'])
  })
})

describe('striking a mistaken slackening', () => {
  test('[ST5] does not bring back what it voided: nobody can know that the joint was not moved', () => {
    const back: Given[] = [
      rodsProven(),
      claim('pump'),
      all('JP', [1, 2, 3], 30),
      { by: 'ana', command: { type: 'TakeReading', jointId: 'JP', position: 1, pass: 1, how: 'slackened' } },
    ]
    const slackened = floor(back).job.readings.JP?.at(-1)?.id ?? ''
    const { job } = floor(back, strike(slackened))
    expect(
      job.readings.JP?.map(({ struck, superseded }) => [struck !== undefined, superseded?.because]),
    ).toEqual([
      [false, 'slackened'],
      [false, undefined],
      [false, undefined],
      [true, undefined],
    ])
    floor(back, strike(slackened))
      .when(sign('pump'))
      .refuses('positions_open', { joint: 'JP', positions: [1], pass: 1 })
    floor(back, strike(slackened), putDown('pump')).when(claim('pump')).gives({ type: 'StepClaimed' })
  })
})

describe('striking a reading', () => {
  test('[ST4] it stays in its place, crossed out, with who, when and why', () => {
    const then = given(claim('head'), shows('JH', 2, 45)).when(
      strike(entry(2), { at: 30, reason: 'read the wrong bolt' }),
    )
    then.gives({ type: 'ReadingStruck', jointId: 'JH', readingId: entry(2), reason: 'read the wrong bolt' })
    expect(then.job.readings.JH).toMatchObject([
      { torqueNm: 45, struck: { by: 'ana', doneAt: START + 30 * 60_000, reason: 'read the wrong bolt' } },
    ])
  })
  test('[ST4] its pass is to go again', () => {
    given(headTurned(), strike(entry(9)))
      .when(sign('head'))
      .refuses('positions_open', { joint: 'JH', positions: [3], pass: 2, passes: 2 })
  })
  test('[ST1] a reading this job has not', () => {
    given(claim('head')).when(strike('none')).refuses('reading_not_found', { readingId: 'none' })
  })
  test('[ST2] struck once is struck, whoever asks', () => {
    given(claim('head'), shows('JH', 2, 45), strike(entry(2)))
      .when(strike(entry(2)))
      .thenNothing()
    given(claim('head'), shows('JH', 2, 45), strike(entry(2)))
      .when(strike(entry(2), { by: 'cy' }))
      .thenNothing()
  })
  test('[ST3] it is for the one who entered it, and for the supervisor', () => {
    const taken = given(claim('head'), shows('JH', 2, 45))
    taken.when(strike(entry(2), { by: 'bo' })).refuses('not_yours_to_strike', { by: 'ana' })
    taken.when(strike(entry(2), { by: 'wim' })).refuses('not_yours_to_strike')
    taken.when(strike(entry(2), { by: 'dee' })).gives({ type: 'ReadingStruck', by: 'dee' })
  })
  test('[LP1] signatures over it lapse', () => {
    const then = given(headProven()).when(strike(entry(2)))
    then.gives(
      { type: 'ReadingStruck' },
      { type: 'SignaturesLapsed', stepId: 'head', setId: 'step', because: 'strike' },
    )
    expect(then.job.steps.head?.sets.step).toEqual({ lapsed: 1 })
  })
  test('[FW3] what a struck slackening took back stays taken back', () => {
    const { job } = given(claim('head'), shows('JH', 2, 30), slacken('JH', 2)).when(strike(entry(3)))
    expect(job.readings.JH).toMatchObject([
      { superseded: { because: 'slackened' } },
      { struck: { by: 'ana' } },
    ])
  })
})
