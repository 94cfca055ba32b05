/** What every route is given, what it knows of who asks, and the few ways it answers. */
import type { Context } from 'hono'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import type { z } from 'zod'
import { ABOUT_THE_PERSON } from '../../shared/job/refusals'
import type { DemoAct, DemoMoment, DemoState, PersonCard } from '../../shared/protocol'
import { SHOP_ABOUT_THE_PERSON } from '../../shared/shop/refusals'
import type { Person } from '../../shared/shop/types'
import type { Access } from '../access'
import type { Box } from '../box/box'
import type { Tally } from '../box/tally'
import { check } from '../check'
import type { Damage } from '../damage'
import type { Desk, Log, Reply } from '../desk'
import type { Intake } from '../intake'
import type { People, SignIn } from '../people'
import type { PhotoShelf } from '../photos/shelf'
import type { Purses } from '../purse'
import type { Authority, ShopCertificate } from '../tls'

/** What routes and sockets know of the demonstration; a real shop has none. */
export interface Demo {
  moments: readonly DemoMoment[]
  state(): DemoState
  act(act: DemoAct): Promise<void>
  /** `anew`: a restart; what pages show is of a shop that is gone. */
  onChange(listener: (state: DemoState, anew: boolean) => void): void
  /** Resolves at once, or when the restart that is under way is over. */
  ready(): Promise<void>
}

export type Trusted = Pick<ShopCertificate, keyof Authority | 'next'>

export interface Rooms {
  desk: Desk
  people: People
  access: Access
  intake: Intake
  now: () => number
  /** Milliseconds that only go forward, for rates and waits. */
  monotonic: () => number
  newId: () => string
  photos: PhotoShelf
  damage: Damage
  log: Log
  box: Box
  tally: Tally
  purses: Purses
  /** What whoever opens the shop must type; where there is none, nobody opens one here. */
  firstRunCode?: string
  /** Where the shop is the demonstration's. */
  demo?: Demo
  web: {
    /** The demonstration and a real shop keep apart, also in one browser. */
    cookieName: string
    /** Told to browsers only where the way to them is encrypted. */
    secure: boolean
    /** On loopback, other names in the Host header are somebody else's page pointing at this machine. */
    loopbackOnly: boolean
    /** A proxy in front passes on what browsers ask. */
    behindProxy?: boolean
    /** Lets whoever has it read `/metrics` from another machine. */
    metricsToken?: string
    /** The built pages. */
    folder: string
    /** What tablets are to trust, where the shop has a certificate of its own. */
    trusted?: () => Trusted | undefined
  }
}

export interface Env {
  Variables: {
    requestId: string
    deviceId?: string
    signIn?: SignIn
    /** Of the answer, before it is compressed. */
    answerBytes?: number
  }
}

export type Ctx = Context<Env>

/** Every answer that is not the thing asked for: a code, and a sentence fit to show. */
export function problem(
  c: Context,
  status: ContentfulStatusCode,
  code: string,
  sentence: string,
  more: Record<string, unknown> = {},
) {
  return c.json({ ok: false, code, sentence, ...more }, status)
}

export const notFound = (c: Context, sentence: string) => problem(c, 404, 'not_found', sentence)

/** The body as JSON and as its schema has it; or the answer that says what is wrong with it. */
export async function body<T>(c: Ctx, schema: z.ZodType<T>): Promise<{ value: T } | { answer: Response }> {
  const input = await json(c)
  if ('answer' in input) return input
  const checked = check(schema, input.value)
  return 'fault' in checked ? { answer: c.json(checked.fault, 400) } : checked
}

export async function json(c: Ctx): Promise<{ value: unknown } | { answer: Response }> {
  const text = await c.req.text()
  try {
    return { value: JSON.parse(text) }
  } catch (error) {
    const where = error instanceof Error ? error.message : 'not JSON'
    return {
      answer: problem(
        c,
        400,
        'bad_message',
        `The server could not read this: it is not JSON (${where}). Send JSON text.`,
        { path: '' },
      ),
    }
  }
}

const STATUS: Record<string, ContentfulStatusCode> = {
  bad_message: 400,
  signed_out: 401,
  not_this_device: 403,
  grant_not_valid: 403,
  too_many: 429,
  pin_waits: 429,
  not_saved: 503,
}

/** What the desk gave, as HTTP says it. */
export function fromDesk(c: Ctx, answer: Reply) {
  if (answer.ok) {
    const { ok: _, ...written } = answer
    return c.json(written, 201)
  }
  const aboutThePerson = ABOUT_THE_PERSON.has(answer.code) || SHOP_ABOUT_THE_PERSON.has(answer.code)
  return c.json(answer, STATUS[answer.code] ?? (aboutThePerson ? 403 : 409))
}

export const tooMany = (c: Ctx, waitMs: number, what = 'PINs') => {
  const seconds = Math.max(1, Math.ceil(waitMs / 1000))
  c.header('Retry-After', `${seconds}`)
  return problem(c, 429, 'too_many', `Too many wrong ${what}. Wait ${seconds} s, then try again.`, {
    seconds,
  })
}

export const cardOf = ({ id, name, initials, paint, roles }: Person): PersonCard => ({
  id,
  name,
  initials,
  paint,
  roles,
})

export const UNKNOWN = 'unknown'

/** Behind an address where there is no device yet. */
export function addressOf(c: Ctx): string {
  const incoming = (c.env as { incoming?: { socket?: { remoteAddress?: string } } } | undefined)?.incoming
  return incoming?.socket?.remoteAddress ?? UNKNOWN
}

export const badId = (c: Ctx, path: string, rule: string) =>
  problem(c, 400, 'bad_message', `The address is wrong: ${rule}.`, { path })
