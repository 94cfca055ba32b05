/**
 * Locks by name, as the pages of one browser share them: held until what they were asked for is done or their page is
 * closed, then given to whoever asked next; one that is stolen is lost to its holder.
 */
interface Held {
  page: unknown
  lose(): void
}
interface Asked {
  name: string
  page: unknown
  give(): void
}
type Given = () => unknown

/** `call` runs what is of a page: at once, unless told. */
export function makeLocks(call: (page: unknown, what: () => void) => void = (_, what) => what()) {
  const held = new Map<string, Held>()
  let waiting: Asked[] = []

  function giveNext(name: string): void {
    const next = held.has(name) ? undefined : waiting.find((one) => one.name === name)
    if (!next) return
    waiting = waiting.filter((one) => one !== next)
    next.give()
  }

  function request(page: unknown, name: string, steal: boolean, given: Given): Promise<unknown> {
    return new Promise((resolve, reject) => {
      const give = () => {
        const mine: Held = { page, lose: () => reject(new DOMException('Stolen.', 'AbortError')) }
        held.set(name, mine)
        call(page, () =>
          Promise.resolve(given())
            .then(resolve, reject)
            .finally(() => {
              if (held.get(name) !== mine) return
              held.delete(name)
              giveNext(name)
            }),
        )
      }
      const holder = steal ? held.get(name) : undefined
      if (holder) call(holder.page, holder.lose)
      if (steal) give()
      else {
        waiting.push({ name, page, give })
        giveNext(name)
      }
    })
  }

  return {
    /** What `navigator.locks` is to a page. */
    of: (page: unknown) => ({
      request: (name: string, ...rest: [Given] | [{ steal?: boolean }, Given]) =>
        request(page, name, typeof rest[0] === 'object' && rest[0].steal === true, rest.at(-1) as Given),
      query: async () => ({ held: [...held.keys()].map((name) => ({ name })), pending: [] }),
    }),
    close(page: unknown) {
      waiting = waiting.filter((one) => one.page !== page)
      const left = [...held].filter(([, holder]) => holder.page === page).map(([name]) => name)
      for (const name of left) held.delete(name)
      for (const name of left) giveNext(name)
    },
  }
}
