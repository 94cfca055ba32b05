/**
 * Tarn Quay Engine Works: its people, its wrench crib, its plans. All of it is invented, PINs too.
 *
 * Opened by commands through the desk, as a person would do it.
 */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { readPlanText } from '../shared/plan/schema'
import type { Plan } from '../shared/plan/types'
import type { Entitlement, Person, ShopCommand, Wrench } from '../shared/shop/types'
import type { ShopClock } from './clock'

const EVERYTHING: Entitlement = { classes: ['A', 'B', 'C'], families: [] }
const NOTHING: Entitlement = { classes: [], families: [] }

export const SHOP_NAME = 'Tarn Quay Engine Works'

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
  person('dov', 'Dov Castell', 'DC', 'slate', [], NOTHING, NOTHING),
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

export function wrenches(clock: ShopClock): Wrench[] {
  const year = 365
  const click = (
    id: string,
    title: string,
    unit: Wrench['unit'],
    [min, max]: [number, number],
    increment: number,
    checkedDaysAgo: number,
  ): Wrench => ({
    id,
    kind: 'click',
    title,
    unit,
    min,
    max,
    increment,
    lastCheckedAt: clock.daysFrom(-checkedDaysAgo),
    dueAt: clock.daysFrom(year - checkedDaysAgo),
    state: 'in_service',
  })
  return [
    click('TW-11', 'Click wrench 10–60', 'N·m', [10, 60], 0.5, 70),
    click('TW-12', 'Click wrench 40–200', 'N·m', [40, 200], 1, 190),
    click('TW-13', 'Click wrench 5–25', 'N·m', [5, 25], 0.25, 70),
    click('TW-14', 'Click wrench, lbf·ft scale only', 'lbf·ft', [5, 75], 0.5, 120),
    click('TW-15', 'Click wrench, yard kit', 'N·m', [20, 100], 0.5, 40),
    { ...click('IW-01', 'Indicating wrench, for audits', 'N·m', [0, 50], 0.1, 30), kind: 'indicating' },
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

/** A plan file of the repository; one with faults is a bug of ours. */
export function planFile(repo: string, name: string): Plan {
  const reading = readPlanText(readFileSync(join(repo, 'seed', 'plans', `${name}.json`), 'utf8'))
  if ('plan' in reading) return reading.plan
  throw new Error(
    `${name}.json: ${reading.faults.map(({ path, problem }) => `${path} ${problem}`).join('; ')}`,
  )
}

/** In order; the founder's is the first. */
export function openingCommands(clock: ShopClock, plans: readonly Plan[]): ShopCommand[] {
  const [founder, ...others] = PEOPLE
  return [
    { type: 'OpenShop', name: SHOP_NAME, founder: founder as Person, invented: true },
    ...others.map((person) => ({ type: 'AddPerson', person }) as const),
    ...wrenches(clock).map((wrench) => ({ type: 'AddWrench', wrench }) as const),
    ...plans.map((plan) => ({ type: 'AddPlan', plan }) as const),
  ]
}
