/**
 * Locks by name, as the pages of one browser share them: held until what they were asked for is done or their page is
 * closed, then given to whoever asked next; one that is stolen is lost to its holder.
 */
interface Asked {
  name: string
  page: unknown
  shared: boolean
  given(): unknown
  done(outcome: unknown): void
  lost(why: unknown): void
}
type Given = () => unknown
type Options = { steal?: boolean; mode?: 'shared' | 'exclusive' }

/** `call` runs what is of a page: at once, unless told. */
export function makeLocks(call: (page: unknown, what: () => void) => void = (_, what) => what()) {
  let held: Asked[] = []
  let waiting: Asked[] = []
  const holdersOf = (name: string) => held.filter((one) => one.name === name)

  function giveNext(name: string): void {
    const next = waiting.find((one) => one.name === name)
    if (!next || !holdersOf(name).every(({ shared }) => shared && next.shared)) return
    waiting = waiting.filter((one) => one !== next)
    give(next)
    giveNext(name)
  }
  function give(asked: Asked): void {
    held.push(asked)
    call(asked.page, () => {
      Promise.resolve(asked.given())
        .then(asked.done, asked.lost)
        .finally(() => leave(asked))
    })
  }
  function leave(asked: Asked): void {
    held = held.filter((one) => one !== asked)
    giveNext(asked.name)
  }

  function request(page: unknown, name: string, { steal = false, mode }: Options, given: Given) {
    return new Promise((done, lost) => {
      const asked: Asked = { name, page, shared: mode === 'shared', given, done, lost }
      if (!steal) {
        waiting.push(asked)
        return giveNext(name)
      }
      const robbed = holdersOf(name)
      held = held.filter((one) => one.name !== name)
      for (const one of robbed) call(one.page, () => one.lost(new DOMException('Stolen.', 'AbortError')))
      give(asked)
    })
  }

  return {
    /** What `navigator.locks` is to a page. */
    of: (page: unknown) => ({
      request: (name: string, ...rest: [Given] | [Options, Given]) =>
        request(page, name, rest.length === 2 ? rest[0] : {}, rest.at(-1) as Given),
      query: async () => ({
        held: held.map(({ name, shared }) => ({ name, mode: shared ? 'shared' : 'exclusive' })),
        pending: [],
      }),
    }),
    close(page: unknown) {
      waiting = waiting.filter((one) => one.page !== page)
      for (const one of held.filter((other) => other.page === page)) leave(one)
    },
  }
}
