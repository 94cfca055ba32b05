/** An engine built, signed and released to its owner: the demonstration's own, played through a desk in memory. */
import { lastTuesday, OPENS_AT, shopClock } from '../../../seed/clock'
import { EVENT_IDS, pastOf } from '../../../seed/demo'
import { idsFrom } from '../../../seed/ids'
import { bodyHash, openDesk } from '../../../server/desk'
import { repoFolder } from '../../../server/repo-folder'
import { memoryEventStore } from '../../../server/store'
import { silent } from '../../shop/silent'
import type { Pattern } from '../host/long-log'

const JOB = 'e-108'

/** Its entries, as the log holds them. */
export async function releasedEngine(): Promise<Pattern[]> {
  const clock = shopClock(lastTuesday(Date.now()))
  const store = memoryEventStore()
  const desk = await openDesk({
    store,
    publish: { events() {}, summary() {} },
    now: () => clock.at(0, OPENS_AT),
    newId: idsFrom(EVENT_IDS),
    log: silent,
    bytesHere: () => true,
  })
  const newId = idsFrom(EVENT_IDS + 1)
  for (const { at, person, stream, command } of pastOf(clock, repoFolder()).sendings) {
    if (stream !== 'shop' && stream !== `job:${JOB}`) continue
    const sent = { ...command, commandId: newId(), doneAt: at }
    const answer = await desk.submit({
      stream,
      command: sent,
      bodyHash: bodyHash(stream, sent),
      asker: { person, through: 'sign_in' },
      receivedAt: at,
    })
    if (!answer.ok) throw new Error(`Playing ${JOB}: ${answer.sentence}`)
  }
  const [summary] = desk.summaries()
  if (summary?.released?.kind !== 'to_owner') throw new Error(`${JOB} was not released to its owner.`)
  await desk.close()
  return store.read(`job:${JOB}`)
}
