/**
 * A shop's data folder in which as much happened as can be asked for: the demonstration's past and the rest of its
 * day, then engines on which random people do random things, by every command there is.
 *
 * Nothing comes from chance, but for the pepper and the PINs' hashes, which lie outside the log.
 */
import fc from 'fast-check'
import { D0, OPENS_AT, shopClock } from '../../../seed/clock'
import { restOfTheDay } from '../../../seed/day'
import { EVENT_IDS, seedDemo } from '../../../seed/demo'
import { idsFrom } from '../../../seed/ids'
import { portDrawing } from '../../../seed/pictures'
import { HAND_MS } from '../../../seed/player'
import { type Asker, bodyHash, type Reply, type StreamName } from '../../../server/desk'
import { openShop } from '../../../server/open-shop'
import { repoFolder } from '../../../server/repo-folder'
import type { JobCommand } from '../../../shared/job/commands'
import { decide } from '../../../shared/job/decide'
import { evolveAll, newJob } from '../../../shared/job/evolve'
import { isRefusal } from '../../../shared/log'
import type { ShopCommand } from '../../../shared/shop/types'
import { floorHistory, type History, play, playAll, shopOfHistory } from '../../shop/random/floor'
import { silent } from '../../shop/silent'
import { START } from '../../shop/time'

const COMMAND_IDS = 104
const picture = portDrawing({ id: 'floor' })
const HISTORIES = { numRuns: 400, seed: 9 }
const MINUTE = 60_000

export async function playShop(dataFolder: string): Promise<void> {
  const clock = shopClock(D0)
  let now = clock.at(0, OPENS_AT)
  const shop = await openShop({ dataFolder, now: () => now, log: silent, newId: idsFrom(EVENT_IDS) })
  await seedDemo({ ...shop, clock, repo: repoFolder() })
  const newId = idsFrom(COMMAND_IDS)

  function send(
    stream: StreamName,
    command: JobCommand | ShopCommand,
    doneAt: number,
    asker: Asker,
  ): Promise<Reply> {
    const sent = { ...command, commandId: newId(), doneAt }
    return shop.desk.submit({
      stream,
      command: sent,
      bodyHash: bodyHash(stream, sent),
      asker,
      receivedAt: now,
    })
  }

  for (const { at, sentAt, person, jobId, commands } of restOfTheDay(clock)) {
    const job = (await shop.desk.job(jobId)) ?? newJob(jobId)
    for (const [n, command] of commands(job).entries()) {
      const doneAt = clock.at(0, at) + n * HAND_MS
      now = sentAt ? clock.at(0, sentAt) : doneAt
      await send(`job:${jobId}`, command, doneAt, { person, through: 'sign_in' })
    }
  }

  now = START
  for (const command of shopCommands()) {
    const answer = await send('shop', command, now, { person: 'odile', through: 'sign_in' })
    if (!answer.ok) throw new Error(`${command.type}: ${answer.sentence}`)
  }
  await shop.photos.put(picture.photo.sha256, picture.bytes)
  for (const [n, history] of telling(fc.sample(floorHistory, HISTORIES)).entries()) {
    const jobId = `floor-${n + 1}`
    const jobNow = async () => (await shop.desk.job(jobId)) ?? newJob(jobId)
    now = START
    for (const move of history.moves) {
      now += move.minutes * MINUTE
      const scene = play(await jobNow(), move, history.planId, now)
      for (let next = scene.next(); !next.done; next = scene.next(await jobNow())) {
        const { command, by, after = 0, through = 'sign_in', sawVersion } = next.value
        now += after * MINUTE
        await send(`job:${jobId}`, ownOf(command, n + 1), now, {
          person: by,
          through,
          ...(sawVersion === undefined ? {} : { sawVersion }),
        })
      }
    }
  }
  await shop.close()
}

/** Of many histories those that tell something no one before them told. */
function telling(histories: History[]): History[] {
  const forms = histories.map((history) => [...formsOf(history)])
  const told = new Set<string>()
  const chosen: History[] = []
  for (;;) {
    const news = forms.map((some) => some.filter((form) => !told.has(form)).length)
    const most = Math.max(...news)
    const best = news.indexOf(most)
    if (most === 0) return chosen
    chosen.push(histories[best] as History)
    for (const form of forms[best] ?? []) told.add(form)
  }
}

/** Members whose text is one of a few words. */
const ONE_OF_A_FEW = /\.(?:kind|how|condition|because|through|asks|unit|state|status|flags\[\])$/

/** The forms of all events that a history comes to: which members they have, and the words in them. */
function formsOf(history: History): Set<string> {
  const forms = new Set<string>()
  let job = newJob('job')
  const moments = playAll(history, job)
  for (let next = moments.next(job); !next.done; next = moments.next(job)) {
    const { asked, context } = next.value
    const outcome = decide(job, asked.command, context)
    if (isRefusal(outcome)) continue
    for (const event of outcome) for (const form of formsIn(event, event.type)) forms.add(form)
    job = evolveAll(job, outcome)
  }
  return forms
}

function formsIn(value: unknown, path: string): string[] {
  if (typeof value === 'string') return [ONE_OF_A_FEW.test(path) ? `${path}=${value}` : path]
  if (typeof value !== 'object' || value === null || path.endsWith('.plan')) return [path]
  if (Array.isArray(value)) return value.flatMap((one) => formsIn(one, `${path}[]`))
  return Object.entries(value).flatMap(([key, one]) => formsIn(one, `${path}.${key}`))
}

/** Engines have numbers of their own, and photos bytes that are there. */
function ownOf(command: JobCommand, n: number): JobCommand {
  if (command.type === 'OpenJob') return { ...command, number: `F-${n}` }
  if (command.type === 'AddPhoto')
    return { ...command, photo: { ...command.photo, sha256: picture.photo.sha256 } }
  return command
}

/** The random floor's people, wrenches and plans, and every other thing that is asked of a shop. */
function shopCommands(): ShopCommand[] {
  const { people, wrenches, plans, tolerances } = shopOfHistory({
    planId: '',
    recheckAfter: undefined,
    moves: [],
  })
  const [ana] = Object.values(people)
  const [click] = Object.values(wrenches)
  if (!ana || !click) throw new Error('The test shop has nobody, or no wrench.')
  return [
    ...Object.values(people).map((person) => ({ type: 'AddPerson' as const, person })),
    ...Object.values(wrenches).map((wrench) => ({ type: 'AddWrench' as const, wrench })),
    ...Object.values(plans).flatMap((editions) =>
      Object.values(editions).map((plan) => ({ type: 'AddPlan' as const, plan })),
    ),
    { type: 'ChangePerson', person: { ...ana, paint: 'violet' } },
    { type: 'ChangeWrench', wrench: { ...click, state: 'out_for_check' } },
    { type: 'ChangeWrench', wrench: click },
    { type: 'SetTolerances', tolerances: { ...tolerances, angleDeg: tolerances.angleDeg + 1 } },
    { type: 'SetTolerances', tolerances },
    { type: 'SetSelfRecheck', selfRecheck: { allowed: true, afterMinutes: 30 } },
  ]
}
