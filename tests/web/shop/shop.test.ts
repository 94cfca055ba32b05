/** The shop page's own reckoning: people, wrenches, tolerances in words, and cards as they are typed. */
import { describe, expect, test } from 'vitest'
import type { BackupsTold } from '../../../shared/protocol'
import { AT_THE_MACHINE, type Person, type Shop, type Wrench } from '../../../shared/shop/types'
import { backupSentences } from '../../../web/pages/shop/backups'
import { dayText, momentOf, numberFrom } from '../../../web/pages/shop/numbers'
import {
  byName,
  entitlementWords,
  familiesKnown,
  freePaint,
  initialsFor,
  leftLast,
  newPerson,
  tidyPerson,
  wornBy,
} from '../../../web/pages/shop/people'
import { exampleWords, recheckFrom, recheckWords, tolerancesFrom } from '../../../web/pages/shop/tolerances'
import { whereIs } from '../../../web/pages/shop/where'
import {
  changeMeans,
  draftOf,
  inCrib,
  rangeWords,
  wrenchFrom,
  wrenchStanding,
} from '../../../web/pages/shop/wrenches'
import { pinFault } from '../../../web/people/pin-fault'
import { pinNotice, pinWords } from '../../../web/shop/pin-words'
import { planHref } from '../../../web/shop/plan-library'
import { guideOf } from '../../../web/shop/setup-guide'
import { person as anyPerson, NOTHING } from '../../shop/people'
import { shopOf } from '../../shop/shop'
import { DAY } from '../../shop/time'
import { wrench as anyWrench } from '../../shop/wrenches'

const NOW = new Date(2026, 2, 9, 12).getTime()

const person = (id: string, name: string, initials: string, some: Partial<Person> = {}) =>
  anyPerson(id, { name, initials, roles: [], mayDo: NOTHING, maySecondSign: NOTHING, ...some })
const withPeople = (people: Person[]) => shopOf({ people })
const wrench = (some: Partial<Wrench> = {}) =>
  anyWrench('TW-11', {
    title: 'Click wrench',
    min: 10,
    increment: 0.5,
    lastCheckedAt: NOW - 70 * DAY,
    dueAt: NOW + 295 * DAY,
    ...some,
  })

describe('addresses', () => {
  test.each([
    ['', { part: 'people' }],
    ['wrenches', { part: 'wrenches' }],
    ['backups', { part: 'backups' }],
    ['plans/read-one', { part: 'plans', read: true }],
    ['plans/from-sheet', { part: 'plans', sheet: true }],
    ['plans/draft/d-abc', { part: 'plans', draft: 'd-abc' }],
    ['plans/draft/2', { part: 'plans', plan: { id: 'draft', edition: 2 } }],
    ['plans/orrath-q31/3', { part: 'plans', plan: { id: 'orrath-q31', edition: 3 } }],
    ['plans/orrath-q31/x', { part: 'plans' }],
    ['%E0%A4%A', { part: 'people' }],
  ])('%s', (rest, where) => {
    expect(whereIs(rest)).toEqual(where)
  })
  test('an address leads back to its plan, whatever letters its id has', () => {
    const plan = { id: 'motor-é', edition: 2 }
    expect(whereIs(planHref(plan).replace('/shop/', ''))).toEqual({ part: 'plans', plan })
  })
})

describe('backups', () => {
  const NOW_ = Date.UTC(2026, 5, 2, 12)
  const told = { diskLeftBytes: 79_400_000_000, problems: [], now: NOW_ }
  const last = { folder: '/mnt/b/2026-06-02', madeAt: NOW_ - 3_600_000, secrets: true, damagedPhotos: 0 }
  const hourly = { into: '/mnt/b', sameDisk: false, secrets: true }
  const against = (some: Partial<BackupsTold>) =>
    backupSentences({ ...told, ...some })
      .filter((sentence) => sentence.against)
      .map(({ text }) => text)

  test('where all is well nothing asks for anything, and it says when and where the last one is', () => {
    expect(against({ hourly, last })).toEqual([])
    const words = backupSentences({ ...told, hourly, last }).map(({ text }) => text)
    expect(words.join(' ')).toMatch(/in \/mnt\/b\. Last backup: .*, in \/mnt\/b\/2026-06-02\..*79 GB left\.$/)
    expect(backupSentences({ ...told, diskLeftBytes: 2_345_000_000 }).at(-1)?.text).toMatch(/2\.3 GB left/)
  })
  test('each thing that is wrong is one sentence', () => {
    expect(against({})).toEqual([expect.stringMatching(/^The server makes no backups by itself\./)])
    expect(against({ hourly: { ...hourly, sameDisk: true }, last })).toEqual([
      expect.stringMatching(/on the same disk as the data/),
    ])
    expect(
      against({
        hourly,
        last: { ...last, damagedPhotos: 2 },
        failing: { since: NOW_, sentence: 'The disk is full.' },
      }),
    ).toEqual([
      expect.stringMatching(/^No backup could be made since .*\. The disk is full\.$/),
      expect.stringMatching(/^2 photos could not be copied/),
    ])
    expect(against({ hourly, last, problems: ['The disk is almost full.'] })).toEqual([
      'The disk is almost full.',
    ])
  })
})

describe('people', () => {
  const shop = withPeople([
    person('1', 'Bram Teague', 'BT', { mayDo: { classes: ['A'], families: ['petrol'] } }),
    person('2', 'Suvi Hale', 'SH', { paint: 'green' }),
  ])

  test('what somebody may do, in words', () => {
    expect(entitlementWords({ classes: [], families: ['diesel'] })).toBe('nothing')
    expect(entitlementWords({ classes: ['C', 'A', 'B'], families: [] })).toBe(
      'class A, B and C on every engine',
    )
    expect(entitlementWords({ classes: ['B'], families: ['petrol', 'motorcycle'] })).toBe(
      'class B on petrol and motorcycle engines',
    )
  })

  test('a new person gets a paint nobody wears, and initials nobody has', () => {
    expect(freePaint(shop)).toBe('plum')
    expect(
      wornBy(shop, '')
        .get('green')
        ?.map(({ name }) => name),
    ).toEqual(['Suvi Hale'])
    expect(wornBy(shop, '2').has('green')).toBe(false)
    expect(initialsFor('Kofi Lund', shop, 'x')).toBe('KL')
    expect(initialsFor('Berta Tamm', shop, 'x')).toBe('BTA')
    expect(initialsFor('Bram Teague', shop, '1')).toBe('BT')
    expect(initialsFor('', shop, 'x')).toBe('')
    expect(newPerson('x', shop).maySecondSign.classes).toEqual([])
  })

  test('where every paint is worn, the one worn least', () => {
    const all = [
      'blue',
      'green',
      'plum',
      'ochre',
      'teal',
      'crimson',
      'slate',
      'olive',
      'violet',
      'brown',
    ] as const
    const full = withPeople(
      [...all, ...all.slice(0, 3)].map((paint, n) => person(`${n}`, `${n}`, `${n}`, { paint })),
    )
    expect(freePaint(full)).toBe('ochre')
  })

  test('families are those of the library and those on the cards', () => {
    expect(familiesKnown(shop)).toEqual(['petrol'])
  })

  test('a card is sent trimmed, without families where there is no class', () => {
    const typed = person('3', ' Kofi ', ' K ', {
      roles: ['owner', 'technician'],
      mayDo: { classes: ['C', 'A'], families: [' diesel ', '', 'diesel'] },
      maySecondSign: { classes: [], families: ['petrol'] },
    })
    expect(tidyPerson(typed)).toMatchObject({
      name: 'Kofi',
      initials: 'K',
      roles: ['technician', 'owner'],
      mayDo: { classes: ['A', 'C'], families: ['diesel'] },
      maySecondSign: { classes: [], families: [] },
    })
  })

  test('[PE14] when a PIN was set and by whom, and what its person is told', () => {
    const shop = withPeople([person('ana', 'Ana', 'AN'), person('dee', 'Dee', 'DE')])
    const words = { person: (id: string) => (id === 'dee' ? 'Dee' : id) }
    const setBy = (by: string): Shop => ({ ...shop, pins: { ana: { by, at: NOW } } })
    expect(pinWords(shop, 'ana', words)).toBe('not known when it was set')
    expect(pinNotice(shop, 'ana', words)).toBeUndefined()
    expect(pinWords(setBy('ana'), 'ana', words)).toMatch(/^set on .*2026.* by themselves$/)
    expect(pinNotice(setBy('ana'), 'ana', words)).toBeUndefined()
    expect(pinWords(setBy('dee'), 'ana', words)).toMatch(/ by Dee$/)
    expect(pinNotice(setBy('dee'), 'ana', words)).toMatchObject({
      at: NOW,
      sentence: expect.stringMatching(/^Dee set a new PIN for you on .*2026.*\.$/),
    })
    expect(pinWords(setBy(AT_THE_MACHINE), 'ana', words)).toMatch(/ at the server’s machine$/)
    expect(pinNotice(setBy(AT_THE_MACHINE), 'ana', words)?.sentence).toMatch(/at the server’s machine on/)
  })

  test('[SH18] who left stands apart, the last one first', () => {
    const shop: Shop = {
      ...withPeople([person('ana', 'Ana', 'AN'), person('bo', 'Bo', 'BO'), person('dee', 'Dee', 'DE')]),
      left: { ana: { by: 'dee', at: NOW }, bo: { by: 'dee', at: NOW + 1 } },
    }
    expect(byName(shop).map(({ id }) => id)).toEqual(['dee'])
    expect(leftLast(shop).map(({ person, by, at }) => [person.id, by, at])).toEqual([
      ['bo', 'dee', NOW + 1],
      ['ana', 'dee', NOW],
    ])
  })

  test('a PIN is digits, twice the same', () => {
    expect(pinFault('4711', '4711')).toBeUndefined()
    for (const [pin, again] of [
      ['123', '123'],
      ['12a4', '12a4'],
      ['1234567890123', '1234567890123'],
      ['4711', '4712'],
      ['1234', '1234'],
    ])
      expect(pinFault(pin as string, again as string)).toMatch(/\.$/)
  })
})

describe('wrenches', () => {
  test('range and standing in words', () => {
    expect(rangeWords(wrench())).toBe('10 to 60 N·m, in steps of 0.5')
    expect(rangeWords(wrench({ unit: 'deg', min: 0, max: 360, increment: 1 }))).toBe(
      '0 to 360°, in steps of 1',
    )
    expect(wrenchStanding(wrench(), NOW)).toEqual({ words: 'in service', against: false })
    expect(wrenchStanding(wrench({ dueAt: NOW + 9 * DAY }), NOW).words).toBe(
      'in service, check due in 9 days',
    )
    expect(wrenchStanding(wrench({ dueAt: NOW - DAY }), NOW)).toEqual({
      words: 'check was due 8 Mar 2026',
      against: true,
    })
    expect(wrenchStanding(wrench({ state: 'dropped' }), NOW)).toEqual({ words: 'dropped', against: true })
  })

  test('those that cannot be used come first', () => {
    const crib = [wrench({ id: 'TW-2' }), wrench({ id: 'TW-10' }), wrench({ id: 'TW-11', state: 'failed' })]
    expect(inCrib(crib, NOW).map(({ id }) => id)).toEqual(['TW-11', 'TW-2', 'TW-10'])
  })

  test('a change says what follows; none follows from a new name', () => {
    expect(changeMeans(wrench(), wrench({ title: 'Another name' }), NOW)).toEqual([])
    expect(changeMeans(undefined, wrench(), NOW)).toEqual([])
    const failed = changeMeans(wrench(), wrench({ state: 'failed' }), NOW)
    expect(failed[0]).toContain('flagged')
    expect(failed[1]).toContain('Everything since 29 Dec 2025')
    expect(changeMeans(wrench(), wrench({ state: 'out_for_check' }), NOW)).toHaveLength(1)
    expect(changeMeans(wrench({ state: 'dropped' }), wrench(), NOW)[0]).toContain('may be used again')
    expect(changeMeans(wrench(), wrench({ max: 50 }), NOW)[0]).toContain('new scale')
    expect(changeMeans(wrench(), wrench({ dueAt: NOW - DAY }), NOW)[0]).toContain('was due 8 Mar 2026')
  })

  test('a card typed back unchanged is the same card, to the millisecond', () => {
    const card = wrench()
    expect(wrenchFrom(draftOf(card), card)).toEqual(card)
  })

  test('what is typed becomes a card, or the sentence that says what it lacks', () => {
    const draft = { ...draftOf(undefined), id: ' W1 ', title: 'Small', min: '2,5', max: '25' }
    expect(wrenchFrom(draft)).toEqual({
      id: 'W1',
      kind: 'click',
      title: 'Small',
      unit: 'N·m',
      min: 2.5,
      max: 25,
      state: 'in_service',
    })
    expect(wrenchFrom({ ...draft, kind: 'angle_gauge' })).toMatchObject({ unit: 'deg' })
    expect(wrenchFrom({ ...draft, title: '' })).toMatch(/^Fill in/)
    expect(wrenchFrom({ ...draft, max: 'much' })).toMatch(/lowest and the highest/)
    expect(wrenchFrom({ ...draft, max: '2' })).toMatch(/lower number first/)
    expect(wrenchFrom({ ...draft, increment: '0' })).toMatch(/above 0/)
    expect(wrenchFrom({ ...draft, lengthMm: '0,3' })).toMatch(/50 to 5000/)
    expect(wrenchFrom({ ...draft, lengthMm: '300', away: ' often at the slip ' })).toMatchObject({
      lengthMm: 300,
      away: 'often at the slip',
    })
    const measured = wrench({ lengthMm: 230, away: 'at the slip' })
    expect(wrenchFrom(draftOf(measured), measured)).toEqual(measured)
    expect(wrenchFrom({ ...draft, lastChecked: '2026-03-09', due: '2026-03-08' })).toMatch(/before the last/)
  })
})

describe('numbers and days', () => {
  test.each([
    ['12', 12],
    [' 0,5 ', 0.5],
    ['1e3', undefined],
    ['-1', undefined],
    ['', undefined],
    ['1.2.3', undefined],
  ])('%s', (text, value) => {
    expect(numberFrom(text)).toBe(value)
  })
  test('a wrench due on a day is good through that day', () => {
    const due = momentOf('2026-03-09', 'last') as number
    expect(wrenchStanding(wrench({ dueAt: due }), NOW).against).toBe(false)
    expect(wrenchStanding(wrench({ dueAt: due }), due + 1).against).toBe(true)
    expect(dayText(due)).toBe('2026-03-09')
    expect(momentOf('2026-02-30', 'first')).toBeUndefined()
    expect(momentOf('', 'first')).toBeUndefined()
  })
})

describe('tolerances', () => {
  const typed = { A: '5', B: '10', C: '15', angle: '5' }
  test('read as typed, refused with the one that is wrong', () => {
    expect(tolerancesFrom({ ...typed, A: '4,5' })).toEqual({ percent: { A: 4.5, B: 10, C: 15 }, angleDeg: 5 })
    expect(tolerancesFrom({ ...typed, B: '0' })).toMatch(/^Class B/)
    expect(tolerancesFrom({ ...typed, C: '51' })).toMatch(/^Class C/)
    expect(tolerancesFrom({ ...typed, angle: '' })).toMatch(/^Angle/)
  })
  test('shown on an example, by the rule of adoption', () => {
    const tolerances = { percent: { A: 5, B: 10, C: 15 }, angleDeg: 5 }
    expect(exampleWords(tolerances, 'A')).toBe('80 N·m is in band from 76 to 84 N·m')
    expect(exampleWords(tolerances, 'C')).toBe('80 N·m is in band from 68 to 92 N·m')
  })
  test('the self-recheck says what it does, and never to class A', () => {
    expect(recheckFrom(false, 'anything')).toEqual({ allowed: false })
    expect(recheckFrom(true, '240')).toEqual({ allowed: true, afterMinutes: 240 })
    expect(recheckFrom(true, '1,5')).toMatch(/whole minutes/)
    expect(recheckWords({ allowed: false })).toMatch(/^Off/)
    expect(recheckWords({ allowed: true, afterMinutes: 240 })).toMatch(
      /after 4 h .*Class A always takes another/,
    )
  })
})

describe('the first run', () => {
  test('an empty shop: nothing is done; each says how it stands', () => {
    const items = guideOf(withPeople([person('1', 'Ana', 'A')]), 0)
    expect(items.map(({ done }) => done)).toEqual([false, false, false, false])
    for (const { words } of items) expect(words).toMatch(/^Not done: /)
  })
  test('each is done by what is there, and an invented plan says so', () => {
    const plan = { id: 'p', edition: 1, invented: true } as Shop['plans'][string][number]
    const shop = withPeople([person('1', 'Ana', 'A'), person('2', 'Bo', 'B')])
    const items = guideOf({ ...shop, wrenches: { W: wrench() }, plans: { p: { 1: plan } } }, 1)
    expect(items.map(({ done }) => done)).toEqual([true, true, true, true])
    expect(items[2]?.words).toContain('invented values only')
    expect(items[1]?.words).toBe('Done: 1 wrench is in the crib.')
  })
})
