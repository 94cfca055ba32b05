/**
 * The real code made wrong on purpose, one promise at a time: the simulation must find each. `find` stands once in its file.
 * @typedef {{ promise: string, name: string, file: string, find: string, replace: string }} Mutation
 */

/** @type {readonly Mutation[]} */
export const MUTATIONS = [
  {
    promise: 'SM1',
    name: 'what lay on the device is not read again',
    file: 'web/live/page-shelf.ts',
    find: 'const entries = left.map(({ stored }) => unpack(stored))',
    replace: 'const entries = left.slice(0, 0).map(({ stored }) => unpack(stored))',
  },
  {
    promise: 'SM2',
    name: 'kept is said before the transaction is complete',
    file: 'web/live/device-store.ts',
    find: 'await Promise.all([work(transaction.store), transaction.done])',
    replace: 'transaction.done.catch(() => undefined)\n    await work(transaction.store)',
  },
  {
    promise: 'SM3',
    name: 'a command that was answered is decided again',
    file: 'server/desk/turn.ts',
    find: 'const before = earlier ?? newAnswers.get(commandId)',
    replace: 'const before = undefined as typeof earlier',
  },
  {
    promise: 'SM3',
    name: 'a resend has an id of its own',
    file: 'web/live/link.ts',
    find: 'commandFor(spoken, command)',
    replace: '{ ...command, commandId: crypto.randomUUID() }',
  },
  {
    promise: 'SM4',
    name: 'an entry is of whoever is signed in when it comes',
    file: 'server/people/people.ts',
    find: 'if (signInId === undefined) return signIns.current(deviceId) ?? SIGNED_OUT',
    replace: 'if (signInId !== "") return signIns.current(deviceId) ?? SIGNED_OUT',
  },
  {
    promise: 'SM5',
    name: 'a failed commit is answered like a good one',
    file: 'server/desk/desk.ts',
    find: 'failed && !isFromEarlierTurn(turnOutcome)',
    replace: 'failed && turnOutcome.kind === "broken"',
  },
  {
    promise: 'SM6',
    name: 'a refused entry is dropped',
    file: 'web/live/outbox.ts',
    find: 'if (!why || sender?.explains?.()) queue.remove(commandId)',
    replace: 'if (!why || why) queue.remove(commandId)',
  },
  {
    promise: 'SM7',
    name: 'what lay on the device comes back in the order of its ids',
    file: 'web/live/page-shelf.ts',
    find: '.sort((a, b) => a.place - b.place)',
    replace: '.sort((a, b) => (keyOf(unpack(a.stored)) < keyOf(unpack(b.stored)) ? 1 : -1))',
  },
  {
    promise: 'SM8',
    name: 'after a silence nothing is tried again until the link breaks',
    file: 'web/live/retry-queue.ts',
    find: 'await Promise.race([wait(waitMs),',
    replace: 'await Promise.race([new Promise(() => undefined),',
  },
  {
    promise: 'SM9',
    name: 'what was entered of the shop does not show with its answer',
    file: 'web/live/shop.ts',
    find: "if (stream === 'shop' && answer.ok) take(",
    replace: "if (stream === 'job:none' && answer.ok) take(",
  },
  {
    promise: 'SM10',
    name: 'one that fails never steps aside',
    file: 'web/live/retry-queue.ts',
    find: '(stuck.get(key) ?? 0) >= stuckAtMost',
    replace: '(stuck.get(key) ?? 0) >= 1e9',
  },
  {
    promise: 'SM11',
    name: 'what is stamped before its sign-in is not taken',
    file: 'server/people/sign-ins.ts',
    find: 'if (!after || isOfAClockSet(candidate, now)) return candidate',
    replace: 'if (!after && moment >= candidate.openedAt - CLOCK_SLACK_MS) return candidate',
  },
]
