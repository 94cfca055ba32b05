/**
 * Tarn Quay Engine Works: its people, its wrench crib, its plans. All of it is invented, PINs too.
 *
 * Opened by commands through the desk, as a person would do it.
 */

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { format } from '../server/format'
import { readPlanText } from '../shared/plan/schema'
import type { Plan } from '../shared/plan/types'
import type { Entitlement, Person, ShopCommand, Wrench } from '../shared/shop/types'
import type { ShopClock } from './clock'

const EVERYTHING: Entitlement = { classes: ['A', 'B', 'C'], families: [] }
const NOTHING: Entitlement = { classes: [], families: [] }

export const SHOP_NAME = 'Tarn Quay Engine Works'

/** Before the first of the eight engines came in. */
const OPENED_ON = -60

const person = (
  id: string,
  name: string,
  initials: string,
  paint: Person['paint'],
  roles: Person['roles'],
  mayDo: Entitlement,
  maySecondSign: Entitlement,
): Person => ({ id, name, initials, paint, roles, mayDo, maySecondSign })

export const PEOPLE: readonly Person[] = [
  person('odile', 'Odile Marrow', 'OM', 'plum', ['supervisor', 'owner'], EVERYTHING, EVERYTHING),
  person('bram', 'Bram Teague', 'BT', 'blue', ['technician'], EVERYTHING, EVERYTHING),
  person('suvi', 'Suvi Hale', 'SH', 'green', ['technician'], EVERYTHING, EVERYTHING),
  person('kofi', 'Kofi Lund', 'KL', 'ochre', ['technician'], EVERYTHING, {
    classes: ['A', 'B', 'C'],
    families: ['petrol', 'motorcycle'],
  }),
  person(
    'jory',
    'Jory Penhale',
    'JP',
    'teal',
    ['technician'],
    { classes: ['B', 'C'], families: [] },
    NOTHING,
  ),
  person('hattie', 'Hattie Vane', 'HV', 'crimson', ['service_writer'], NOTHING, NOTHING),
  person('dov', 'Dov Carrick', 'DC', 'slate', [], NOTHING, NOTHING),
]

/** Invented, and printed at every start of the demonstration. */
export const PINS: Readonly<Record<string, string>> = {
  odile: '4096',
  bram: '1838',
  suvi: '2764',
  kofi: '5310',
  jory: '7205',
  hattie: '6642',
  dov: '9157',
}

/** When TW-12 left the crib for its check, and when its result was entered. */
const TW12_OUT: [number, string] = [-4, '07:45']
const TW12_FAILED: [number, string] = [0, '08:05']

const YEAR_MS = 365 * 86_400_000

/** Each with the day of its last good check. TW-15 and IW-01 were checked again after the shop opened its book. */
const CHECKED: Readonly<Record<string, number>> = {
  'TW-11': -70,
  'TW-12': -190,
  'TW-13': -70,
  'TW-14': -120,
  'TW-15': -40,
  'IW-01': -30,
}

/** From the middle of the drive to the middle of the grip, mm. Invented, as all of this shop. */
const LENGTHS: Readonly<Record<string, number>> = {
  'TW-11': 300,
  'TW-12': 480,
  'TW-13': 230,
  'TW-14': 390,
  'TW-15': 400,
  'IW-01': 330,
}

function checkedOn(wrench: Wrench, at: number): Wrench {
  return { ...wrench, lastCheckedAt: at, dueAt: at + YEAR_MS }
}

function wrenches(clock: ShopClock): Wrench[] {
  const click = (
    id: string,
    title: string,
    unit: Wrench['unit'],
    [min, max]: [number, number],
    increment: number,
  ): Wrench =>
    checkedOn(
      {
        id,
        kind: 'click',
        title,
        unit,
        min,
        max,
        increment,
        ...(LENGTHS[id] === undefined ? {} : { lengthMm: LENGTHS[id] }),
        state: 'in_service',
      },
      clock.at(CHECKED[id] ?? 0, '10:00'),
    )
  return [
    click('TW-11', 'Click wrench 10–60', 'N·m', [10, 60], 0.5),
    click('TW-12', 'Click wrench 40–200', 'N·m', [40, 200], 1),
    click('TW-13', 'Click wrench 5–25', 'N·m', [5, 25], 0.25),
    click('TW-14', 'Click wrench, lbf·ft scale only', 'lbf·ft', [5, 75], 0.5),
    { ...click('TW-15', 'Click wrench, yard kit', 'N·m', [20, 100], 0.5), away: 'often at the slip' },
    {
      ...click('IW-01', 'Indicating wrench, for audits', 'N·m', [0, 50], 0.1),
      kind: 'indicating',
      away: 'kept for audits',
    },
    {
      id: 'AG-02',
      kind: 'angle_gauge',
      title: 'Angle gauge',
      unit: 'deg',
      min: 0,
      max: 360,
      increment: 1,
      state: 'in_service',
    },
  ]
}

/** What can be taken from the crib at a moment. */
export function cribAt(clock: ShopClock, at: number): Wrench[] {
  const gone = at >= clock.at(...TW12_OUT)
  return wrenches(clock).map((one) => (gone && one.id === 'TW-12' ? { ...one, state: 'out_for_check' } : one))
}

/** A plan file of the repository; one with faults is a bug of ours. */
export function planFile(repo: string, name: string): Plan {
  const reading = readPlanText(readFileSync(join(repo, 'seed', 'plans', `${name}.json`), 'utf8'), format)
  if ('plan' in reading) return reading.plan
  throw new Error(
    `${name}.json: ${reading.faults.map(({ path, problem }) => `${path} ${problem}`).join('; ')}`,
  )
}

export interface ShopSent {
  at: number
  person: string
  command: ShopCommand
}

/**
 * The shop's own book: opened, people and crib entered, plans taken in; later checks, and what came of TW-12.
 *
 * The crib is the supervisor's to change [SH6], so Odile enters what Dov found and rang her about.
 */
export function shopBook(clock: ShopClock, plans: readonly Plan[]): ShopSent[] {
  const [founder, ...others] = PEOPLE
  const crib = wrenches(clock)
  const opened = clock.at(OPENED_ON, '08:00')
  const card = (id: string): Wrench => {
    const wrench = crib.find((one) => one.id === id)
    if (!wrench) throw new Error(`No wrench ${id} hangs in the crib.`)
    return wrench
  }
  // What was checked after the book was opened came in with the card of the year before.
  const then = (wrench: Wrench): Wrench =>
    wrench.lastCheckedAt !== undefined && wrench.lastCheckedAt > opened
      ? checkedOn(wrench, wrench.lastCheckedAt - YEAR_MS + 30 * 86_400_000)
      : wrench
  const opening: ShopCommand[] = [
    { type: 'OpenShop', name: SHOP_NAME, founder: founder as Person, invented: true },
    ...others.map((person) => ({ type: 'AddPerson', person }) as const),
    ...crib.map((wrench) => ({ type: 'AddWrench', wrench: then(wrench) }) as const),
    ...plans.map((plan) => ({ type: 'AddPlan', plan }) as const),
  ]
  const later = crib
    .filter((wrench) => then(wrench) !== wrench)
    .map((wrench) => ({ at: wrench.lastCheckedAt ?? 0, command: { type: 'ChangeWrench', wrench } as const }))
  const tw12 = (when: [number, string], state: Wrench['state']) => ({
    at: clock.at(...when),
    command: { type: 'ChangeWrench', wrench: { ...card('TW-12'), state } } as const,
  })
  return [
    ...opening.map((command, n) => ({ at: opened + n * 20_000, command })),
    ...later,
    tw12(TW12_OUT, 'out_for_check'),
    tw12(TW12_FAILED, 'failed'),
  ].map((sent) => ({ ...sent, person: 'odile' }))
}
