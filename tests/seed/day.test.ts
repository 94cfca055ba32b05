/** The rest of the day, played by commands without waiting: it ends as the scenario's section 4 tells. */
import { beforeAll, expect, test } from 'vitest'
import { D0, shopClock } from '../../seed/clock'
import { restOfTheDay } from '../../seed/day'
import { idsFrom } from '../../seed/ids'
import { bodyHash } from '../../server/desk'
import { isProven, positionState, stepState } from '../../shared/job/verdicts'
import { indexPlan } from '../../shared/plan/read'
import { type DemoShop, demoShop } from './shop'

const clock = shopClock(D0)
let shop: DemoShop
const refusals: string[] = []

beforeAll(async () => {
  shop = await demoShop()
  const newId = idsFrom(7)
  for (const { at, sentAt, person, jobId, commands } of restOfTheDay(clock)) {
    const job = await shop.job(jobId)
    for (const [n, command] of commands(job).entries()) {
      const doneAt = clock.at(0, at) + n * 12_000
      const sent = { ...command, commandId: newId(), doneAt }
      const stream = `job:${jobId}` as const
      const answer = await shop.desk.submit({
        stream,
        command: sent,
        bodyHash: bodyHash(stream, sent),
        asker: { person, through: 'sign_in' },
        receivedAt: sentAt ? clock.at(0, sentAt) : doneAt,
      })
      if (!answer.ok) refusals.push(`${at} ${jobId} ${command.type} ${answer.code}`)
    }
  }
})

test('nothing is refused but the release of E-107', () => {
  expect(refusals).toEqual(['15:30 e-107 Release stands_against_release'])
})

test('moments come in the order of time, and say what to look at', () => {
  const moments = restOfTheDay(clock)
  const times = moments.map(({ at }) => at)
  expect(times).toEqual([...times].sort())
  expect(times[0] && times[0] >= '09:45').toBe(true)
  expect(moments.every(({ shows }) => shows.length > 10)).toBe(true)
  expect(moments.filter(({ refused }) => refused).map(({ at, refused }) => [at, refused])).toEqual([
    ['15:30', 'stands_against_release'],
  ])
})

test('F5 is proven: done at 13:40 by the bench’s clock, Odile’s look a signature at 14:10', async () => {
  const job = await shop.job('e-101')
  expect(isProven(job, { joint: 'G-F5' })).toBe(true)
  const set = stepState(job, 'F5').sets.step
  expect(set).toMatchObject({ first: { by: 'bram' }, second: { by: 'odile', doneAt: clock.at(0, '14:10') } })
  const pass2 = job.readings['G-F5']?.filter(({ pass }) => pass === 2) ?? []
  expect(pass2.filter(({ superseded }) => superseded?.because === 'restarted')).toHaveLength(3)
  expect(pass2).toHaveLength(9)
  expect(pass2.flatMap(({ flags }) => flags)).toEqual([])
  const cells = shop.desk.summaries().find(({ id }) => id === 'e-101')?.cells ?? []
  expect(cells.find(({ stepId }) => stepId === 'F6')?.standing).toBe('ready')
  expect(job.settled['G-F6']?.[1]).toMatchObject({ torqueNm: 12, by: 'odile', doneAt: clock.at(0, '11:20') })
})

test('E-103’s rocker box is signed, 26.4 and all three pulls still in its trail', async () => {
  const job = await shop.job('e-103')
  const values = job.readings['RB-stud']?.flatMap(({ how, value }) => (how === 'indicated' ? [value] : []))
  expect(values).toEqual([26.4, 22.1, 21.9, 22])
  expect(isProven(job, { joint: 'RB-stud' })).toBe(true)
  expect(job.holds.every(({ cleared }) => cleared)).toBe(true)
})

test('E-104’s covers are right, the old eight readings kept; E-106 is free; E-107 is not released', async () => {
  const covers = (await shop.job('e-104')).readings['RC-M6'] ?? []
  expect(covers.filter(({ flags }) => flags.includes('unit_held_up'))).toHaveLength(8)
  expect(isProven(await shop.job('e-104'), { joint: 'RC-M6' })).toBe(true)
  expect((await shop.job('e-106')).holds[0]?.cleared).toMatchObject({ by: 'hattie' })
  expect((await shop.job('e-107')).releases).toEqual([])
})

test('at the end of the day every joint begun is final or has its marker, and nobody holds a step', async () => {
  for (const { id, on } of shop.desk.summaries()) {
    expect(on, id).toEqual([])
    const job = await shop.job(id)
    for (const step of job.plan.steps)
      for (const joint of step.joints) {
        const states = joint.positions.map(({ n }) => positionState(job, joint, n))
        const begun = states.some(({ reached }) => reached.length > 0)
        const open = states.some(({ nextPass }) => nextPass !== undefined)
        const deferred = job.deferrals.some(
          ({ what }) => what.kind === 'fasteners' && what.joint === joint.id,
        )
        if (!begun || !open || deferred) continue
        const marks = stepState(job, step.id).stopped?.at.map(({ jointId }) => jointId)
        expect(marks, `${id} ${step.id} ${indexPlan(job.plan).jointById.get(joint.id)?.title}`).toContain(
          joint.id,
        )
      }
  }
})
