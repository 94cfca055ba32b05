/**
 * Who is signed in on this device, and who works here.
 *
 * Before sign-in only names, initials and paints are known. Changing person touches nothing that was entered:
 * every command names the sign-in it was made under.
 */
import { batch, createMemo, createSignal } from 'solid-js'
import type { DemoState, Me, PersonCard } from '../../shared/protocol'
import { leads } from '../../shared/shop/entitlement'
import type { Role } from '../../shared/shop/kinds'
import type { Words } from '../../shared/words'
import { format } from '../format'
import { recall, remember } from '../ui/device'
import { askedAt } from './asked-early'
import type { Clock } from './clock'
import { ask, isFailure } from './http'

/** As `/api/people` gives it; roles come with a sign-in. */
export type Card = Omit<PersonCard, 'roles'> & { roles?: Role[] }

/** Good for one command, within three minutes. */
export interface Grant {
  id: string
  by: string
  /** What they looked at, where this page can hash nothing: the version the server had confirmed. */
  sawVersion?: number
}

/** Whose command it is: who is signed in here, or a second signer by their grant. */
export function authorOf(personId: string | undefined, grant?: Grant): { by: string; sawVersion?: number } {
  if (!grant) return { by: personId ?? '' }
  const { by, sawVersion } = grant
  return sawVersion === undefined ? { by } : { by, sawVersion }
}

export type Session = ReturnType<typeof makeSession>

/** Another shop may have come to this address meanwhile: what waits here is not its. */
export const isOwnShop = async ({
  shopKnown,
  shopKey,
}: Pick<Session, 'shopKnown' | 'shopKey'>): Promise<boolean> => (await shopKnown) === shopKey()

const RETRY_MS = 3000
/** Who was signed in here and who works here, as the server said last: to open the pages where it is silent. */
const LAST = 'paintmark-last'

interface LastSaid {
  me: Me
  people: readonly Card[]
  /** By this device's clock. */
  at: number
}

function lastSaid(): LastSaid | undefined {
  try {
    return JSON.parse(recall(LAST) ?? '') as LastSaid
  } catch {
    return undefined
  }
}

export function makeSession(
  clock: Clock,
  onPersonChanged: (signedIn: boolean) => void,
  onDemo: (state: DemoState, sentAt: number) => void = () => {},
) {
  const [me, setMe] = createSignal<Me>()
  const [people, setPeople] = createSignal<readonly Card[]>([])
  const [problem, setProblem] = createSignal<string>()
  /** The server itself has answered since this page was opened. */
  let told = false
  let tellShop: (key: string) => void = () => undefined
  /** The shop this page is of, as soon as it is known: what is kept on the device is kept for it alone. */
  const shopKnown = new Promise<string>((resolve) => {
    tellShop = resolve
  })
  const byId = createMemo(() => new Map(people().map((card) => [card.id, card])))

  const cardOf = (id: string): Card | undefined => byId().get(id)
  const nameOf = (id: string): string => cardOf(id)?.name ?? id

  const askPeople = () => ask<Card[] | { people: Card[] }>('/api/people')
  function takePeople(answer: Awaited<ReturnType<typeof askPeople>>): void {
    if (!isFailure(answer)) setPeople(Array.isArray(answer) ? answer : answer.people)
  }
  const readPeople = async (): Promise<void> => takePeople(await askPeople())

  function take(next: Me): void {
    const before = me()?.signIn?.id
    setMe(next)
    if (next.shop.key !== undefined) tellShop(next.shop.key)
    if (before !== next.signIn?.id) onPersonChanged(next.signIn !== undefined)
  }

  function goByLast(): void {
    const last = lastSaid()
    if (!last) return
    const here = Date.now()
    const { now, demo } = last.me
    clock.learn(here, now + here - last.at)
    if (demo) onDemo({ ...demo, now: demo.now + (here - last.at) * demo.rate }, here)
    setPeople(last.people)
    take(last.me)
  }

  /** Reads `/api/me`; without an answer tries again until there is one. */
  async function refresh(): Promise<void> {
    const sentAt = askedAt('/api/me') ?? Date.now()
    const [answer, cards] = await Promise.all([ask<Me>('/api/me'), askPeople()])
    if (isFailure(answer)) {
      setProblem(answer.sentence)
      if (!me() && answer.code === 'no_signal') goByLast()
      if (!told) setTimeout(() => void refresh(), RETRY_MS)
      return
    }
    told = true
    clock.learn(sentAt, answer.now)
    if (answer.demo) onDemo(answer.demo, sentAt)
    setProblem(undefined)
    batch(() => {
      if (answer.shop.opened) takePeople(cards)
      take(answer)
    })
    remember(LAST, JSON.stringify({ me: answer, people: people(), at: sentAt } satisfies LastSaid))
  }

  /** Answers with the sentence that says why not, or nothing when all is well. */
  async function post(path: string, body: object): Promise<string | undefined> {
    const answer = await ask(path, body)
    if (isFailure(answer)) return answer.sentence
    await refresh()
    return undefined
  }

  const words: Words = { ...format, person: nameOf, moment: (at) => format.moment(at, clock.now()) }

  return {
    me,
    shopKnown,
    /** Names the shop by its own log; none before there is one. */
    shopKey: () => me()?.shop.key,
    problem,
    people,
    /** The card of whoever is signed in. */
    person: () => me()?.signIn?.person,
    signInId: () => me()?.signIn?.id,
    words,
    nameOf,
    cardOf,
    holds: (...roles: Role[]) => me()?.signIn?.person.roles.some((role) => roles.includes(role)) ?? false,
    /** A supervisor or the owner is signed in. */
    leads: () => {
      const person = me()?.signIn?.person
      return person !== undefined && leads(person)
    },
    refresh,
    readPeople,
    signIn: (personId: string, pin: string) => post('/api/sign-in', { personId, pin }),
    /** In the demonstration alone: in without a PIN. */
    signInAtDemo: (personId: string) => post('/api/demo/sign-in', { personId }),
    signOut: () => post('/api/sign-out', {}),
    openShop: (body: { shopName: string; name: string; initials: string; pin: string; code: string }) =>
      post('/api/first-run', body),
  }
}
