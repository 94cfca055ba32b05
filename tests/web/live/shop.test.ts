/** The shop on this device: what was entered here shows when it is answered, whoever is there to hear. */
import { expect, test } from 'vitest'
import type { Watched } from '../../../shared/protocol'
import type { Link, Watcher } from '../../../web/live/link'
import { type AnswerListener, commandIdOf, type QueuedCommand } from '../../../web/live/outbox'
import { makeShopReplica } from '../../../web/live/shop'
import { person } from '../../shop/people'
import { testShop } from '../../shop/shop'

const added = (version: number, id: string) => ({
  version,
  recordedAt: 0,
  event: { type: 'PersonAdded' as const, person: person(id), by: 'ana', doneAt: 0 },
})
const entry: QueuedCommand = {
  stream: 'shop',
  command: { commandId: 'c1', doneAt: 1, type: 'AddPerson', person: person('eve') },
  by: 'ana',
}

function openShop() {
  const asked: (number | undefined)[] = []
  const watching: Watcher[] = []
  let answered: AnswerListener | undefined
  const link: Pick<Link, 'watch' | 'resync' | 'on'> = {
    watch(watcher) {
      watching.push(watcher)
      return () => undefined
    },
    resync: ({ have }) => void asked.push(have()),
    on: () => () => undefined,
  }
  const onAnswer = (listener: AnswerListener) => {
    answered = listener
    return () => undefined
  }
  const seen = { load: async () => undefined, keep: () => undefined, forget: async () => undefined }
  const replica = makeShopReplica(link, { onAnswer }, () => undefined, seen)
  replica.watch()
  return {
    replica,
    asked,
    tell: (answer: Extract<Watched, { ok: true }>) => watching[0]?.watched(answer),
    answer: (...events: ReturnType<typeof added>[]) =>
      answered?.(entry, { ok: true, version: events.at(-1)?.version ?? 0, events }),
  }
}
const known = { ok: true, room: 'shop', state: testShop, now: 0 } as const
const { version } = testShop

test('what was entered shows with its answer, though the form that sent it is gone and nobody else tells', () => {
  const { replica, tell, answer } = openShop()
  tell(known)
  answer(added(version + 1, 'eve'))
  expect(replica.shop().people.eve?.name).toBe('Eve')
  expect(replica.shop().version).toBe(version + 1)
})

test('an answer that comes before what precedes it is asked about, and one that is known already changes nothing', () => {
  const { replica, asked, tell, answer } = openShop()
  tell(known)
  answer(added(version + 2, 'eve'))
  expect(asked).toEqual([version])
  expect(replica.shop()).toBe(testShop)
  answer(added(version, 'eve'))
  expect(replica.shop()).toBe(testShop)
})

test('before the server has told the shop, an answer alone is not taken for it', () => {
  const { replica, answer } = openShop()
  answer(added(1, commandIdOf(entry)))
  expect([replica.known(), replica.shop().version]).toEqual([false, 0])
})

test('[WI11] an event of a newer build is not guessed at: the state is asked for', () => {
  const { replica, asked, tell, answer } = openShop()
  tell(known)
  answer({ ...added(version + 1, 'eve'), event: { type: 'OfANewerBuild' } as never })
  expect([asked, replica.shop()]).toEqual([[undefined], testShop])
  tell({ ...known, state: { ...testShop, version: version + 1 } })
  answer(added(version + 2, 'eve'))
  expect([asked, replica.shop().version]).toEqual([[undefined], version + 2])
})
