/**
 * A fresh shop with three people, two wrenches and one small plan, made over HTTP on an empty server: all that three
 * people need to take an engine from its plan to its owner. Everything in it is invented.
 */
import { randomUUID } from 'node:crypto'
import { expect } from 'vitest'
import type { Plan, PlanStep } from '../../shared/plan/types'
import type { Entitlement, Person, Wrench } from '../../shared/shop/types'
import type { Device, Server } from './harness'

const STEP: Pick<
  PlanStep,
  'kind' | 'hides' | 'minutes' | 'joints' | 'measurements' | 'parts' | 'gates' | 'signatures'
> = {
  kind: 'tighten',
  hides: [],
  minutes: { low: 10, likely: 20, high: 40 },
  signatures: 1,
  joints: [],
  measurements: [],
  parts: [],
  gates: [],
}
const JOINT = {
  fastener: 'nut',
  grade: '8',
  lubrication: 'oil',
  use: { kind: 'reusable' },
  interruption: { torqueOnly: 'restart_pass' },
} as const
const row = (count: number) => Array.from({ length: count }, (_, i) => ({ n: i + 1, x: 20 + 40 * i, y: 30 }))

/** Three stages, five steps, eleven fasteners; class A, B and C; a value nobody published; a photo to be taken. */
export const SMALL_PLAN: Plan = {
  format: 'paintmark-plan/1',
  id: 'harrow-r2',
  edition: 1,
  title: 'Harrow R2, head and cover',
  family: 'diesel',
  source: 'Made up for a test. In a real plan: the maker’s manual by title, edition and page.',
  invented: true,
  notices: ['The engine and every value are invented. Do not use them on a real engine.'],
  stages: [
    { id: 'A', title: 'Head' },
    { id: 'B', title: 'Closing', releases: 'to_fitting' },
    { id: 'C', title: 'First run', releases: 'to_owner' },
  ],
  steps: [
    {
      ...STEP,
      id: 'A1',
      stage: 'A',
      title: 'Head on, nuts tightened',
      needs: [],
      signatures: 2,
      joints: [
        {
          ...JOINT,
          id: 'H-A1',
          title: 'Head nuts',
          thread: 'M10x1.25',
          class: 'A',
          positions: [
            { n: 1, x: 20, y: 20 },
            { n: 2, x: 100, y: 20 },
            { n: 3, x: 100, y: 80 },
            { n: 4, x: 20, y: 80 },
          ],
          order: [1, 3, 2, 4],
          passes: [
            { kind: 'torque', torqueNm: 30, wrench: 'TW-1' },
            { kind: 'torque', torqueNm: 60, wrench: 'TW-1' },
          ],
        },
      ],
    },
    {
      ...STEP,
      id: 'A2',
      stage: 'A',
      title: 'Rocker stand',
      kind: 'fit',
      needs: ['A1'],
      joints: [
        {
          ...JOINT,
          id: 'H-A2',
          title: 'Rocker stand nuts',
          thread: 'M8x1.25',
          class: 'B',
          positions: row(2),
          passes: [{ kind: 'torque', torqueNm: 22, wrench: 'TW-1' }],
        },
      ],
    },
    {
      ...STEP,
      id: 'B1',
      stage: 'B',
      title: 'Rocker cover',
      kind: 'fit',
      needs: ['A2'],
      hides: [{ joint: 'H-A1' }, { joint: 'H-A2' }],
      joints: [
        {
          ...JOINT,
          id: 'H-B1',
          title: 'Cover bolts',
          fastener: 'bolt',
          thread: 'M6x1.0',
          class: 'C',
          positions: row(4),
          passes: [{ kind: 'torque', torqueNm: 8, wrench: 'TW-1' }],
        },
      ],
      gates: [{ id: 'cover', kind: 'photo', text: 'The cover, closed', places: ['front'] }],
    },
    {
      ...STEP,
      id: 'B2',
      stage: 'B',
      title: 'Oil feed',
      needs: ['A1'],
      joints: [
        {
          ...JOINT,
          id: 'H-B2',
          title: 'Oil feed union',
          fastener: 'union',
          thread: 'M12x1.5',
          class: 'B',
          positions: row(1),
          passes: [{ kind: 'torque', torqueNm: null, wrench: 'TW-1' }],
        },
      ],
    },
    {
      ...STEP,
      id: 'C1',
      stage: 'C',
      title: 'First run, up to heat',
      kind: 'run',
      needs: ['B1', 'B2'],
      measurements: [
        {
          id: 'oil',
          title: 'Oil pressure, hot idle',
          unit: 'bar',
          places: ['hot idle'],
          min: 1,
          instrument: 'pressure gauge',
        },
      ],
      gates: [{ id: 'leaks', kind: 'look', text: 'No leak of fuel, oil or water' }],
    },
  ],
}

const wrench = (id: string, title: string, unit: Wrench['unit'], max: number): Wrench => ({
  id,
  kind: 'click',
  title,
  unit,
  min: 5,
  max,
  increment: 0.5,
  lastCheckedAt: Date.now() - 30 * 86_400_000,
  dueAt: Date.now() + 300 * 86_400_000,
  state: 'in_service',
})
export const WRENCHES = [
  wrench('TW-1', 'click wrench, half inch', 'N·m', 110),
  wrench('TW-2', 'click wrench from the old crib', 'lbf·ft', 80),
  { ...wrench('IW-1', 'dial wrench', 'lbf·ft', 80), kind: 'indicating' as const },
]

const ALL: Entitlement = { classes: ['A', 'B', 'C'], families: [] }
const technician = (id: string, name: string, initials: string, paint: Person['paint']): Person => ({
  id,
  name,
  initials,
  paint,
  roles: ['technician'],
  mayDo: ALL,
  maySecondSign: ALL,
})
const HANDS = [technician('tom', 'Tom Garrick', 'TG', 'green'), technician('ines', 'Ines Falk', 'IF', 'plum')]
const PINS = { ada: '2468', tom: '1357', ines: '9753' }

/**
 * Opens the shop from this device, which is its owner's from then on, with people, wrenches and the plan. Afterwards
 * `server.people` has `ada`, `tom` and `ines`, as the demonstration has its own.
 */
export async function openSmallShop(owner: Device, server: Server): Promise<void> {
  const post = async (path: string, data: object): Promise<unknown> => {
    const answer = await owner.context.request.post(path, { data })
    expect(answer.ok(), await answer.text()).toBe(true)
    return answer.json()
  }
  const shop = (command: object) => post('/api/shop/commands', { commandId: randomUUID(), ...command })
  const founder = { name: 'Ada Brook', initials: 'AB', pin: PINS.ada }
  const { person } = (await post('/api/first-run', { shopName: 'Saltings Engine Works', ...founder })) as {
    person: { id: string }
  }
  for (const one of HANDS) {
    await shop({ type: 'AddPerson', person: one })
    const pin = PINS[one.id as keyof typeof PINS]
    await post(`/api/people/${one.id}/pin`, { pin })
    server.people.push({ id: one.id, name: one.name, pin })
  }
  server.people.push({ id: person.id, name: founder.name, pin: PINS.ada })
  for (const one of WRENCHES) await shop({ type: 'AddWrench', wrench: one })
  await shop({ type: 'AddPlan', plan: SMALL_PLAN })
}
