/** The player of the day: its clock, its keys, who joins in, and that the same day gives the same log. */
import { describe, expect, test } from 'vitest'
import { restOfTheDay } from '../../seed/day'
import { makePace } from '../../seed/pace'
import { bodyHash } from '../../server/desk'
import { isProven, stepState } from '../../shared/job/verdicts'
import { at, clock, drivenDay, shown } from './driven'

describe('the pace', () => {
  test('goes at its rate, is put forward, and never goes back [DM5]', () => {
    const wall = { now: 500 }
    const pace = makePace(10_000, () => wall.now)
    wall.now += 1000
    expect(pace.now()).toBe(11_000)
    pace.run(60)
    wall.now += 1000
    expect(pace.now()).toBe(71_000)
    pace.forward(50_000)
    expect(pace.now()).toBe(71_000)
    pace.forward(100_000)
    expect(pace.now()).toBe(100_000)
    pace.run(0)
    wall.now += 60_000
    expect(pace.now()).toBe(100_000)
    wall.now -= 90_000
    expect(pace.now()).toBe(100_000)
  })
})

describe('the day at once', () => {
  test('ends as the scenario tells, with one refusal, which it tells of [DM4]', async () => {
    const day = await drivenDay()
    await day.atOnce()
    const { begun, refused, playing } = day.player.state()
    expect({ begun, playing }).toEqual({ begun: restOfTheDay(clock).length, playing: false })
    expect(refused).toMatchObject([{ code: 'stands_against_release', foreseen: true, leftOut: 0 }])
    expect(day.player.moments[refused[0]?.moment ?? 0]).toMatchObject({ person: 'odile', jobId: 'e-107' })
    expect(shown(day.pace.now())).toBe('16:50:00')
    expect(day.desk.summaries().flatMap(({ on }) => on)).toEqual([])
    expect(isProven(await day.job('e-101'), { joint: 'G-F5' })).toBe(true)
    expect(isProven(await day.job('e-103'), { joint: 'RB-stud' })).toBe(true)
    expect((await day.job('e-106')).holds.every(({ cleared }) => cleared)).toBe(true)
    expect((await day.job('e-107')).releases).toEqual([])
    expect(day.failures).toEqual([])
  })

  test('gives the same chain heads each time [DM6]', async () => {
    const [one, two] = [await drivenDay(), await drivenDay()]
    await one.atOnce()
    await two.atOnce()
    const heads = await one.store.streams()
    expect(await two.store.streams()).toEqual(heads)
    expect(heads.map(({ version }) => version).reduce((a, b) => a + b)).toBeGreaterThan(1000)
  })

  test('step by step gives the same log as in one go', async () => {
    const [one, steps] = [await drivenDay(), await drivenDay()]
    await one.atOnce()
    for (const moment of steps.player.moments) {
      await steps.player.step()
      expect(steps.pace.now()).toBeGreaterThanOrEqual(moment.due)
    }
    expect(await steps.store.streams()).toEqual(await one.store.streams())
    await steps.player.step()
    expect(steps.player.state().begun).toBe(steps.player.moments.length)
  })
})

describe('the day at a pace', () => {
  test('at 60 the first moment comes after five seconds, its nuts twelve shop seconds apart', async () => {
    const day = await drivenDay()
    await day.player.play()
    await day.seconds(4.9)
    expect(day.player.state().begun).toBe(0)
    await day.seconds(0.2)
    expect(day.player.state()).toMatchObject({ begun: 1, playing: true })
    await day.seconds(3)
    const times = (await day.job('e-105')).readings['H-B1']
      ?.filter(({ doneAt }) => doneAt >= at('09:50'))
      .map(({ doneAt }) => shown(doneAt))
    expect(times).toEqual(['09:50:36', '09:50:48', '09:51:00', '09:51:12', '09:51:24', '09:51:36'])
  })

  test('a change of speed counts from the moment it is made', async () => {
    const day = await drivenDay()
    await day.player.setSpeed(1)
    await day.player.play()
    await day.seconds(60)
    expect(shown(day.pace.now())).toBe('09:46:00')
    await day.player.setSpeed(10)
    await day.seconds(6)
    expect(shown(day.pace.now())).toBe('09:47:00')
    await day.seconds(18.1)
    expect(day.player.state().begun).toBe(1)
  })

  test('paused, the clock goes on as on the wall; what it passed comes late, under its own time [DM5]', async () => {
    const day = await drivenDay()
    await day.seconds(30 * 60)
    expect(shown(day.pace.now())).toBe('10:15:00')
    expect(day.player.state().begun).toBe(0)
    await day.player.play()
    await day.seconds(0)
    expect(day.player.state().begun).toBeGreaterThanOrEqual(2)
    const { second } = stepState(await day.job('e-105'), 'B1').sets.step ?? {}
    expect(second && shown(second.doneAt)).toBe('10:05:00')
    expect(shown(day.pace.now())).toBe('10:15:00')
    expect(day.player.state().refused).toEqual([])
  })

  test('a pause in the middle of a moment keeps the rest of it', async () => {
    const day = await drivenDay()
    await day.player.play()
    await day.seconds(5.5)
    await day.player.pause()
    const before = (await day.job('e-105')).version
    await day.seconds(120)
    expect((await day.job('e-105')).version).toBe(before)
    await day.player.step()
    expect(day.player.state().begun).toBe(1)
    expect(stepState(await day.job('e-105'), 'B1').sets.step?.first).toMatchObject({ by: 'suvi' })
  })

  test('what the network kept arrives with the network, under the bench’s time [DM4]', async () => {
    const day = await drivenDay()
    while (day.player.moments[day.player.state().begun]?.due !== at('14:10')) await day.player.step()
    await day.player.play()
    const events = async () => (await day.desk.eventsAfter('job:e-101', 0)).slice(-12)
    await day.seconds((at('14:09') - day.pace.now()) / 60_000)
    expect((await events()).every(({ recordedAt }) => recordedAt < at('13:00'))).toBe(true)
    await day.seconds(1.5)
    const late = (await events()).filter(({ recordedAt }) => recordedAt >= at('14:10'))
    expect(late.length).toBeGreaterThan(8)
    const done = late.map(({ event }) => shown(event.doneAt))
    expect(done.filter((time) => time.startsWith('13:4')).length).toBe(late.length - 1)
    expect(done.at(-1)).toBe('14:10:00')
  })
})

describe('somebody joins in', () => {
  test('a moment that is refused is told, the rest of it left out, and the day goes on [DM4]', async () => {
    const day = await drivenDay()
    const command = { type: 'ClaimStep', stepId: 'B1', commandId: 'by-hand', doneAt: at('09:46') } as const
    const claimed = await day.desk.submit({
      stream: 'job:e-105',
      command,
      bodyHash: bodyHash('job:e-105', command),
      asker: { person: 'kofi', through: 'sign_in' },
      receivedAt: at('09:46'),
    })
    expect(claimed.ok).toBe(true)
    await day.atOnce()
    const { refused, begun } = day.player.state()
    expect(begun).toBe(day.player.moments.length)
    expect(refused[0]).toMatchObject({ moment: 0, foreseen: false, leftOut: 9 })
    expect(refused[0]?.sentence).toContain('Kofi Lund')
    expect(refused.at(-1)).toMatchObject({ code: 'stands_against_release', foreseen: true })
    expect(isProven(await day.job('e-101'), { joint: 'G-F5' })).toBe(true)
  })

  test('a moment that breaks stops the day and is told to whoever keeps the server', async () => {
    const [first] = restOfTheDay(clock)
    if (!first) throw new Error('The day has no moments.')
    const broken = () => {
      throw new Error('a story at fault')
    }
    const day = await drivenDay([{ ...first, commands: broken }])
    await day.player.step()
    expect(day.failures).toMatchObject([{ message: 'a story at fault' }])
    expect(day.player.state().playing).toBe(false)
  })

  test('once closed, nothing more is sent', async () => {
    const day = await drivenDay()
    await day.player.play()
    await day.player.close()
    await day.player.step()
    await day.seconds(3600)
    expect(day.player.state()).toMatchObject({ begun: 0, playing: false })
  })
})
