/** The shop's own rules: people, wrenches, tolerances, the plan library; and its fold. */
import { v7 } from 'uuid'
import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../shared/log'
import type { Plan } from '../../../shared/plan/types'
import { decideShop } from '../../../shared/shop/decide'
import { mayDo, maySecondSign } from '../../../shared/shop/entitlement'
import { evolveShop, FIRST_TOLERANCES, newShop } from '../../../shared/shop/evolve'
import { presentIn } from '../../../shared/shop/left'
import { SHOP_REFUSAL_CODES, type ShopRefusalCode, shopSentenceFor } from '../../../shared/shop/refusals'
import { personSchema, shopCommandSchema } from '../../../shared/shop/schema'
import {
  AT_THE_MACHINE,
  type Person,
  type PinCommand,
  type Shop,
  type ShopCommand,
  type ShopEvent,
  type Wrench,
} from '../../../shared/shop/types'
import { people } from '../../shop/people'
import { testPlan } from '../../shop/plans/test-engine'
import { START } from '../../shop/time'
import { figures } from '../../shop/words'
import { crib } from '../../shop/wrenches'
import { withJoint } from '../plan/faults'

interface Said {
  refuses(code: ShopRefusalCode, data?: Record<string, unknown>): void
  gives(...events: (Partial<ShopEvent> & { type: ShopEvent['type'] })[]): void
  thenNothing(): void
  shop: Shop
}

const run = (shop: Shop, command: ShopCommand | PinCommand, by: string) =>
  decideShop(shop, command, { by, doneAt: START, figures })

/** The shop after these, each accepted; then what is asked, by Dee unless said otherwise. */
function given(...happened: ShopCommand[]) {
  let shop = newShop()
  for (const command of happened) {
    const outcome = run(shop, command, 'dee')
    if (isRefusal(outcome)) throw new Error(`given, but refused: ${outcome.refused}`)
    shop = outcome.reduce(evolveShop, shop)
  }
  return {
    shop,
    when(command: ShopCommand | PinCommand, by = 'dee'): Said {
      const outcome = run(shop, command, by)
      return {
        refuses(code, data = {}) {
          expect(outcome).toMatchObject({ refused: code, data })
          const said = isRefusal(outcome) ? shopSentenceFor(outcome) : undefined
          expect(said).toMatch(/.{20,}/)
          expect(said).not.toMatch(/undefined|NaN|\[object/)
        },
        gives(...events) {
          expect(outcome).toHaveLength(events.length)
          expect(outcome).toMatchObject(events)
        },
        thenNothing: () => expect(outcome).toEqual([]),
        get shop() {
          if (isRefusal(outcome)) throw new Error(`refused: ${outcome.refused}`)
          return outcome.reduce(evolveShop, shop)
        },
      }
    },
  }
}

const openShop = (founder: Person = people.dee): ShopCommand => ({
  type: 'OpenShop',
  name: 'Test shop',
  founder,
})
const add = (person: Person): ShopCommand => ({ type: 'AddPerson', person })
const change = (person: Person): ShopCommand => ({ type: 'ChangePerson', person })
const hang = (wrench: Wrench): ShopCommand => ({ type: 'AddWrench', wrench })
const click = crib.click as Wrench
const opened = (...more: ShopCommand[]) => given(openShop(), ...more)

describe('opening the shop', () => {
  test('[SH4] the founder is entered with it', () => {
    const then = given().when({ ...openShop(), invented: true } as ShopCommand)
    then.gives(
      { type: 'ShopOpened', name: 'Test shop', invented: true, by: 'dee' },
      { type: 'PersonAdded', person: people.dee },
    )
    expect(then.shop).toMatchObject({
      opened: true,
      name: 'Test shop',
      invented: true,
      version: 2,
      people: { dee: people.dee },
    })
    expect(given().when(openShop()).shop.invented).toBe(false)
  })
  test('[SH1] a shop is opened once', () => {
    opened().when(openShop()).refuses('shop_already_open', { name: 'Test shop' })
    opened().when(openShop(people.ana)).refuses('shop_already_open')
  })
  test('[SH3] by somebody who may enter the others', () => {
    given().when(openShop(people.ana)).refuses('founder_leads')
    given().when(openShop(people.wim)).refuses('founder_leads')
    given()
      .when(openShop({ ...people.ana, roles: ['technician', 'owner'] }))
      .gives({ type: 'ShopOpened' }, { type: 'PersonAdded' })
  })
})

describe('a PIN', () => {
  const set = (personId: string): PinCommand => ({ type: 'SetPin', personId })
  test('[SH17] is an entry with whose and by whom, and the shop knows the last one', () => {
    const shop = opened(add(people.ana))
    const own = shop.when(set('ana'), 'ana')
    own.gives({ type: 'PinSet', personId: 'ana', by: 'ana', doneAt: START })
    expect(own.shop.pins).toEqual({ ana: { by: 'ana', at: START } })
    expect(shop.when(set('ana')).shop.pins).toEqual({ ana: { by: 'dee', at: START } })
    expect(shop.when(set('dee'), AT_THE_MACHINE).shop.pins?.dee?.by).toBe(AT_THE_MACHINE)
  })
  test('[SH17] of another is not set by somebody who does not lead, nor of nobody', () => {
    opened(add(people.ana)).when(set('dee'), 'ana').refuses('pin_of_another')
    opened().when(set('dee'), 'nobody').refuses('pin_of_another')
    opened().when(set('ana')).refuses('person_not_found', { id: 'ana' })
    given().when(set('dee')).refuses('shop_not_open')
  })
  test('[SH17] opening a shop makes the founder’s, where one comes along; the wire takes no such command', () => {
    const outcome = decideShop(newShop(), openShop(), { by: 'dee', doneAt: START, figures, withPin: true })
    expect(outcome).toMatchObject([
      { type: 'ShopOpened' },
      { type: 'PersonAdded' },
      { type: 'PinSet', personId: 'dee' },
    ])
    expect(shopCommandSchema.safeParse({ ...set('dee'), commandId: v7() }).success).toBe(false)
    expect(personSchema.safeParse({ ...people.ana, id: AT_THE_MACHINE }).success).toBe(false)
  })
})

describe('leaving', () => {
  const leave = (personId: string): ShopCommand => ({ type: 'LeaveShop', personId })
  test('[SH18] keeps the card without roles and entitlements, and takes what is known of the PIN', () => {
    const both = opened(add(people.ana)).when({ type: 'SetPin', personId: 'ana' }).shop
    const outcome = run(both, leave('ana'), 'dee')
    expect(outcome).toMatchObject([{ type: 'PersonLeft', personId: 'ana', by: 'dee' }])
    const shop = (outcome as ShopEvent[]).reduce(evolveShop, both)
    expect(shop.left).toEqual({ ana: { by: 'dee', at: START } })
    expect(shop.pins).toEqual({})
    const nothing = { classes: [], families: [] }
    expect(shop.people.ana).toEqual({ ...people.ana, roles: [], mayDo: nothing, maySecondSign: nothing })
    expect(presentIn(shop).map(({ id }) => id)).toEqual(['dee'])
    expect(run(shop, { type: 'SetPin', personId: 'ana' }, 'dee')).toMatchObject({
      refused: 'person_left',
      data: { name: people.ana.name },
    })
  })
  test('[SH18] is entered by who leads, never of the last of them, and once', () => {
    const shop = opened(add(people.ana))
    shop.when(leave('ana'), 'ana').refuses('shop_role_needed')
    shop.when(leave('dee')).refuses('last_leader', { name: people.dee.name })
    shop.when(leave('zed')).refuses('person_not_found', { id: 'zed' })
    opened(add(people.ana), leave('ana')).when(leave('ana')).thenNothing()
    opened(add({ ...people.ana, roles: ['owner'] }))
      .when(leave('dee'))
      .gives({ type: 'PersonLeft' })
  })
  test('[SH19] comes back by their card, also an unchanged one; the initials were kept for them', () => {
    const gone = opened(add(people.ana), leave('ana'))
    gone.when(add({ ...people.bo, initials: people.ana.initials })).refuses('initials_taken')
    const back = gone.when(change(people.ana))
    back.gives({ type: 'PersonChanged' })
    expect([back.shop.left, back.shop.people.ana, back.shop.pins]).toEqual([{}, people.ana, undefined])
    gone.when(change(gone.shop.people.ana as Person)).gives({ type: 'PersonChanged' })
  })
})

describe('every other command', () => {
  test('[SH5] needs an open shop', () => {
    given().when(add(people.ana)).refuses('shop_not_open')
  })
  test('[SH6] is the supervisor’s or the owner’s', () => {
    opened(add(people.ana)).when(add(people.bo), 'ana').refuses('shop_role_needed')
    opened().when(hang(click), 'nobody').refuses('shop_role_needed')
    opened().when(hang(click), 'constructor').refuses('shop_role_needed')
    opened(add({ ...people.bo, roles: ['owner'] }))
      .when(hang(click), 'bo')
      .gives({ type: 'WrenchAdded', by: 'bo' })
  })
})

describe('people', () => {
  test('[SH7] are entered once', () => {
    opened().when(add(people.ana)).gives({ type: 'PersonAdded', person: people.ana })
    opened(add(people.ana))
      .when(add({ ...people.ana, initials: 'DE' }))
      .refuses('person_exists', { name: 'Ana' })
    opened()
      .when(add({ ...people.ana, id: 'constructor' }))
      .gives({ type: 'PersonAdded' })
  })
  test('[SH2] no two carry the same initials, in whatever case', () => {
    opened()
      .when(add({ ...people.ana, initials: 'de' }))
      .refuses('initials_taken', { initials: 'de', name: 'Dee' })
    opened(add(people.ana))
      .when(change({ ...people.ana, initials: 'DE' }))
      .refuses('initials_taken', { name: 'Dee' })
    opened(add(people.ana))
      .when(change({ ...people.ana, initials: 'an' }))
      .gives({ type: 'PersonChanged' })
  })
  test('[SH8] are changed when they are there and something is different', () => {
    opened().when(change(people.ana)).refuses('person_not_found', { id: 'ana' })
    opened()
      .when(change({ ...people.ana, id: 'constructor' }))
      .refuses('person_not_found')
    const { mayDo: may, ...rest } = people.ana
    opened(add(people.ana))
      .when(change({ mayDo: may, ...rest }))
      .thenNothing()
    const then = opened(add(people.ana)).when(change({ ...people.ana, name: 'Anna' }))
    then.gives({ type: 'PersonChanged' })
    expect(then.shop.people.ana?.name).toBe('Anna')
  })
  test('[SH9] the last who leads keeps the role', () => {
    const less = { ...people.dee, roles: ['technician' as const] }
    opened(add(people.ana)).when(change(less)).refuses('last_leader', { name: 'Dee' })
    opened(add({ ...people.ana, roles: ['owner'] }))
      .when(change(less))
      .gives({ type: 'PersonChanged' })
    opened()
      .when(change({ ...people.dee, roles: ['owner'] }))
      .gives({ type: 'PersonChanged' })
  })
})

describe('wrenches', () => {
  test('[SH10] hang in the crib once', () => {
    opened().when(hang(click)).gives({ type: 'WrenchAdded', wrench: click })
    opened(hang(click))
      .when(hang({ ...click, max: 1 }))
      .refuses('wrench_exists', { id: 'click' })
  })
  test('[SH11] have their card changed when it is there and differs', () => {
    const failed: ShopCommand = { type: 'ChangeWrench', wrench: { ...click, state: 'failed' } }
    opened().when(failed).refuses('shop_wrench_not_found', { id: 'click' })
    opened(hang(click))
      .when({ type: 'ChangeWrench', wrench: { ...click } })
      .thenNothing()
    const then = opened(hang(click)).when(failed)
    then.gives({ type: 'WrenchChanged' })
    expect(then.shop.wrenches.click?.state).toBe('failed')
  })
})

describe('tolerances', () => {
  test('[SH12] hold from when they are set; the first are common practice', () => {
    expect(newShop().tolerances).toEqual(FIRST_TOLERANCES)
    const tolerances = { percent: { A: 4, B: 8, C: 12 }, angleDeg: 3 }
    const then = opened().when({ type: 'SetTolerances', tolerances })
    then.gives({ type: 'TolerancesSet', tolerances })
    expect(then.shop.tolerances).toEqual(tolerances)
    opened().when({ type: 'SetTolerances', tolerances: newShop().tolerances }).thenNothing()
  })
})

describe('the plan library', () => {
  const addPlan = (plan: Plan): ShopCommand => ({ type: 'AddPlan', plan })
  test('[SH13] keeps every edition as it came', () => {
    const then = opened(addPlan(testPlan)).when(addPlan({ ...testPlan, edition: 2 }))
    then.gives({ type: 'PlanAdded' })
    expect(Object.keys(then.shop.plans['test-engine'] ?? {})).toEqual(['1', '2'])
    opened(addPlan(testPlan))
      .when(addPlan(structuredClone(testPlan)))
      .thenNothing()
    opened(addPlan(testPlan))
      .when(addPlan({ ...testPlan, title: 'Other' }))
      .refuses('edition_taken', { title: 'Test engine', edition: 1 })
  })
  test('[SH14] takes no plan that cannot be worked by', () => {
    const step = testPlan.steps[0]
    if (!step) throw new Error('the test plan has no step')
    const broken = { ...testPlan, steps: [{ ...step, needs: ['nowhere'] }, ...testPlan.steps.slice(1)] }
    opened()
      .when(addPlan(broken))
      .refuses('plan_has_faults', { problem: expect.stringContaining('nowhere') })
    const outcome = run(opened().shop, addPlan(broken), 'dee')
    expect(isRefusal(outcome) && shopSentenceFor(outcome)).toMatch(/There is no step nowhere\. Name a step/)
  })
  test('[PC7] takes no value as printed whose page is not on the server', () => {
    const { shop } = opened()
    const taken = withJoint({
      passes: [
        {
          kind: 'torque',
          torqueNm: 60,
          asPrinted: { torqueNm: 60, photo: 'a'.repeat(64), reason: 'confirmed by letter' },
        },
      ],
    })
    const asked = (bytesHere: (sha256: string) => boolean) =>
      decideShop(shop, addPlan(taken), { by: 'dee', doneAt: START, bytesHere, figures })
    expect(asked(() => false)).toMatchObject({ refused: 'plan_has_faults' })
    expect(asked((sha256) => sha256 === 'a'.repeat(64))).toMatchObject([{ type: 'PlanAdded' }])
  })
})

describe('entitlement', () => {
  test('[SH15] is by class and family; no family named is every family', () => {
    const may = (classes: ('A' | 'B' | 'C')[], families: string[]) =>
      mayDo({ ...people.wim, mayDo: { classes, families } }, 'A', 'diesel')
    expect(may(['A'], [])).toBe(true)
    expect(may(['A'], ['petrol', 'diesel'])).toBe(true)
    expect(may(['A'], ['petrol'])).toBe(false)
    expect(may(['B', 'C'], [])).toBe(false)
    expect(may([], ['diesel'])).toBe(false)
  })
  test('[SH15] doing and second-signing are two things', () => {
    expect([mayDo(people.dee, 'A', 'diesel'), maySecondSign(people.dee, 'A', 'diesel')]).toEqual([
      false,
      true,
    ])
    expect([mayDo(people.bo, 'A', 'petrol'), maySecondSign(people.bo, 'A', 'petrol')]).toEqual([true, false])
  })
})

describe('the fold', () => {
  test('[FW8] counts events, changes nothing in place, and survives JSON', () => {
    const before = Object.freeze({ ...opened().shop, people: Object.freeze({ ...opened().shop.people }) })
    const after = evolveShop(before, { type: 'PersonAdded', person: people.ana, by: 'dee', doneAt: START })
    expect(after.version).toBe(before.version + 1)
    expect(before.people).not.toHaveProperty('ana')
    expect(JSON.parse(JSON.stringify(after))).toEqual(after)
  })
  test('[FW9] every refusal has its sentence', () => {
    expect(SHOP_REFUSAL_CODES).toHaveLength(14)
    expect(shopSentenceFor({ refused: 'from_tomorrow', data: {} })).toBeUndefined()
  })
})

describe('a doer’s own second look', () => {
  const set = (allowed: boolean): ShopCommand => ({
    type: 'SetSelfRecheck',
    selfRecheck: allowed ? { allowed, afterMinutes: 60 } : { allowed },
  })
  test('[SH16] is off at first, and set by who leads', () => {
    expect(opened().shop.selfRecheck).toEqual({ allowed: false })
    opened()
      .when(set(true))
      .gives({ type: 'SelfRecheckSet', selfRecheck: { allowed: true, afterMinutes: 60 } })
  })
  test('[SH16] the same again: nothing', () => opened(set(true)).when(set(true)).thenNothing())
})
