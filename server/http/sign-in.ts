/** Signing in and out, who I am, who works here, opening the shop, PINs, and a second signer's grant. */
import { Hono } from 'hono'
import { setCookie } from 'hono/cookie'
import { PROTOCOL_VERSION } from '../../shared/protocol'
import { firstRunSchema, grantSchema, setPinSchema, signInSchema } from '../../shared/schema'
import { hasLeft, presentIn } from '../../shared/shop/left'
import type { Person } from '../../shared/shop/types'
import { epochTold } from '../box/told'
import { bodyHash } from '../desk'
import type { SignIn } from '../people'
import { makeFirstRunCheck } from '../people/first-run-code'
import { signedIn } from './guard'
import {
  addressOf,
  body,
  type Ctx,
  cardOf,
  type Env,
  fromDesk,
  notFound,
  problem,
  type Rooms,
  tooMany,
} from './parts'

const YEARS_10_S = 10 * 365 * 86_400

/** The device of this browser; a new one gets its cookie here. */
export const deviceFor =
  ({ people, web }: Rooms) =>
  (c: Ctx): string => {
    if (c.var.deviceId) return c.var.deviceId
    const { deviceId, cookie } = people.addDevice()
    setCookie(c, web.cookieName, cookie, {
      httpOnly: true,
      sameSite: 'Strict',
      secure: web.secure,
      path: '/',
      // Browsers cap it; a device stays one for as long as they let it.
      maxAge: Math.min(YEARS_10_S, 400 * 86_400),
    })
    return deviceId
  }

/** What a browser is told of a sign-in. */
export const signInReply = ({ id, openedAt }: SignIn, person: Person) => ({
  signIn: { id, openedAt },
  person: cardOf(person),
})

export function signInRoutes(rooms: Rooms) {
  const { desk, people, access, now, newId, demo, log } = rooms
  const firstRun = makeFirstRunCheck(rooms.firstRunCode, rooms.monotonic)
  const deviceOf = deviceFor(rooms)
  let shopKey: string | undefined

  /** Of the hash of the shop's first entry, which never changes; nothing before there is one. */
  async function keyOfShop(): Promise<string | undefined> {
    shopKey ??= (await desk.chain('shop'))[0]?.hash.slice(0, 16)
    // The demonstration's log begins alike each time: what a device kept of one run is not of the next.
    return shopKey && demo ? `${shopKey}-${demo.state().run}` : shopKey
  }

  /** Whoever is not known here is not named: what came in the place of a name may be anything. */
  function tellFailed(c: Ctx, person: Person | undefined, { waitMs }: { waitMs?: number }) {
    const about = { personId: person?.id, deviceId: c.var.deviceId, address: addressOf(c), at: c.req.path }
    log.warn(about, waitMs ? 'A PIN was not looked at: after wrong ones it has to wait.' : 'A PIN was wrong.')
  }

  const wrongPin = (c: Ctx) =>
    problem(
      c,
      401,
      'wrong_pin',
      'That is not this person’s PIN. Try again, or ask a supervisor to set a new one.',
    )

  const wrongBefore = (c: Ctx) =>
    problem(
      c,
      403,
      'wrong_pin',
      'That is not your PIN until now, and nothing was changed. Enter it again, or ask a supervisor to set a new one.',
      { path: '/before' },
    )

  const noPin = (c: Ctx) =>
    problem(
      c,
      401,
      'no_pin',
      'No PIN is set for this person. A supervisor sets one on the Shop page, or "npm run pin" at the server’s machine.',
    )

  const wrongCode = (c: Ctx) =>
    problem(
      c,
      403,
      'wrong_code',
      'That is not the code the server printed when it was started. Read it in the server’s window and enter it again.',
    )

  return new Hono<Env>()
    .get('/me', async (c) => {
      const shop = await desk.shop()
      const signIn = c.var.signIn
      const person = signIn && shop.people[signIn.personId]
      const key = await keyOfShop()
      return c.json({
        shop: { name: shop.name, opened: shop.opened, invented: shop.invented, ...(key ? { key } : {}) },
        ...(person ? { signIn: { id: signIn.id, person: cardOf(person), openedAt: signIn.openedAt } } : {}),
        ...(person ? { pinKey: await people.pinKey() } : {}),
        now: now(),
        protocol: PROTOCOL_VERSION,
        epoch: epochTold(rooms.box),
        ...(demo ? { demo: demo.state() } : {}),
      })
    })
    .get('/people', async (c) => {
      const shop = await desk.shop()
      // What somebody did keeps their name, so they stay among those that are known here; they are not asked in.
      if (c.var.signIn)
        return c.json(
          Object.values(shop.people).map((person) =>
            hasLeft(shop, person.id) ? { ...cardOf(person), left: true } : cardOf(person),
          ),
        )
      return c.json(presentIn(shop).map(({ id, name, initials, paint }) => ({ id, name, initials, paint })))
    })
    .post('/sign-in', async (c) => {
      const input = await body(c, signInSchema)
      if ('answer' in input) return input.answer
      const { personId, pin } = input.value
      const person = (await desk.shop()).people[personId]
      // Nothing is waited for from here to the sign-in: a PIN that was right may be another's word a moment later.
      const pinCheck = await people.prove(personId, pin, c.var.deviceId ?? addressOf(c))
      if (!pinCheck.ok) tellFailed(c, person, pinCheck)
      if (!pinCheck.ok && pinCheck.waitMs) return tooMany(c, pinCheck.waitMs)
      if (person && !people.hasPin(personId)) return noPin(c)
      if (!pinCheck.ok || !person) return wrongPin(c)
      const deviceId = deviceOf(c)
      log.info({ personId, deviceId, address: addressOf(c) }, 'Somebody signed in.')
      return c.json(signInReply(people.signIn(deviceId, personId), person), 201)
    })
    .post('/sign-out', (c) => {
      const { deviceId, signIn } = c.var
      if (deviceId) people.signOut(deviceId)
      if (signIn)
        log.info({ personId: signIn.personId, deviceId, address: addressOf(c) }, 'Somebody signed out.')
      return c.json({ ok: true })
    })
    .post('/first-run', async (c) => {
      const input = await body(c, firstRunSchema)
      if ('answer' in input) return input.answer
      const { shopName, name, initials, pin, code } = input.value
      const codeCheck = firstRun.check(code)
      if (!codeCheck.ok && !(await desk.shop()).opened)
        return codeCheck.waitMs ? tooMany(c, codeCheck.waitMs, 'codes') : wrongCode(c)
      const founder: Person = {
        id: newId(),
        name,
        initials,
        paint: 'blue',
        roles: ['supervisor', 'owner'],
        mayDo: { classes: ['A', 'B', 'C'], families: [] },
        maySecondSign: { classes: ['A', 'B', 'C'], families: [] },
      }
      const at = now()
      const command = { type: 'OpenShop' as const, commandId: newId(), name: shopName, founder }
      const answer = await desk.submit({
        stream: 'shop',
        command,
        bodyHash: bodyHash('shop', command),
        asker: { person: founder.id, through: 'sign_in' },
        receivedAt: at,
        pin: await people.pinToWrite(founder.id, pin, at),
      })
      if (!answer.ok) return fromDesk(c, answer)
      return c.json(signInReply(people.signIn(deviceOf(c), founder.id), founder), 201)
    })
    .post('/people/:id/pin', signedIn, async (c) => {
      const input = await body(c, setPinSchema)
      if ('answer' in input) return input.answer
      const shop = await desk.shop()
      const id = c.req.param('id')
      if (!Object.hasOwn(shop.people, id))
        return notFound(c, 'Nobody by that id works here. Add the person first.')
      const { personId: by, deviceId } = c.var.signIn as SignIn
      // A tablet left open must not be enough to take somebody's signature over.
      if (by === id) {
        const pinCheck = await people.prove(id, input.value.before ?? '', deviceId)
        if (!pinCheck.ok) tellFailed(c, shop.people[id], pinCheck)
        if (!pinCheck.ok && pinCheck.waitMs) return tooMany(c, pinCheck.waitMs)
        if (!pinCheck.ok) return people.hasPin(id) ? wrongBefore(c) : noPin(c)
      }
      const answer = await access.setPin({ personId: id, pin: input.value.pin, by, deviceId })
      return answer.ok ? c.json({ ok: true }) : fromDesk(c, answer)
    })
    .post('/grants', signedIn, async (c) => {
      const input = await body(c, grantSchema)
      if ('answer' in input) return input.answer
      const { personId, pin, ...looked } = input.value
      const { deviceId } = c.var.signIn as SignIn
      const pinCheck = await people.prove(personId, pin, deviceId)
      if (!pinCheck.ok) tellFailed(c, (await desk.shop()).people[personId], pinCheck)
      if (!pinCheck.ok) return pinCheck.waitMs ? tooMany(c, pinCheck.waitMs) : wrongPin(c)
      return c.json(people.giveGrant({ personId, deviceId, ...looked }), 201)
    })
}
