/**
 * A fresh shop with three people, two wrenches and one small plan, made over HTTP on an empty server: all that three
 * people need to take an engine from its plan to its owner. Everything in it is invented.
 */
import { randomUUID } from 'node:crypto'
import { expect } from 'vitest'
import type { Joint, Plan } from '../../shared/plan/types'
import type { Wrench } from '../../shared/shop/types'
import { person } from '../shop/people'
import { joint, plan, step } from '../shop/plan'
import { DAY } from '../shop/time'
import { wrench } from '../shop/wrenches'
import type { Device, Server } from './harness'

const nuts = (id: string, title: string, some: Partial<Joint>) =>
  joint(id, { title, fastener: 'nut', grade: '8', lubrication: 'oil', ...some })
const row = (count: number) => Array.from({ length: count }, (_, i) => ({ n: i + 1, x: 20 + 40 * i, y: 30 }))

/** Three stages, five steps, eleven fasteners; class A, B and C; a value nobody published; a photo to be taken. */
export const SMALL_PLAN: Plan = plan({
  id: 'harrow-r2',
  title: 'Harrow R2, head and cover',
  source: 'Made up for a test. In a real plan: the maker’s manual by title, edition and page.',
  notices: ['The engine and every value are invented. Do not use them on a real engine.'],
  stages: [
    { id: 'A', title: 'Head' },
    { id: 'B', title: 'Closing', releases: 'to_fitting' },
    { id: 'C', title: 'First run', releases: 'to_owner' },
  ],
  steps: [
    step('A1', {
      title: 'Head on, nuts tightened',
      signatures: 2,
      joints: [
        nuts('H-A1', 'Head nuts', {
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
        }),
      ],
    }),
    step('A2', {
      title: 'Rocker stand',
      kind: 'fit',
      needs: ['A1'],
      joints: [
        nuts('H-A2', 'Rocker stand nuts', {
          positions: row(2),
          passes: [{ kind: 'torque', torqueNm: 22, wrench: 'TW-1' }],
        }),
      ],
    }),
    step('B1', {
      stage: 'B',
      title: 'Rocker cover',
      kind: 'fit',
      needs: ['A2'],
      hides: [{ joint: 'H-A1' }, { joint: 'H-A2' }],
      joints: [
        nuts('H-B1', 'Cover bolts', {
          fastener: 'bolt',
          thread: 'M6x1.0',
          class: 'C',
          positions: row(4),
          passes: [{ kind: 'torque', torqueNm: 8, wrench: 'TW-1' }],
        }),
      ],
      gates: [{ id: 'cover', kind: 'photo', text: 'The cover, closed', places: ['front'] }],
    }),
    step('B2', {
      stage: 'B',
      title: 'Oil feed',
      needs: ['A1'],
      joints: [
        nuts('H-B2', 'Oil feed union', {
          fastener: 'union',
          thread: 'M12x1.5',
          positions: row(1),
          passes: [{ kind: 'torque', torqueNm: null, wrench: 'TW-1' }],
        }),
      ],
    }),
    step('C1', {
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
    }),
  ],
})

const inUse = (id: string, title: string, some: Partial<Wrench>) =>
  wrench(id, {
    title,
    increment: 0.5,
    lastCheckedAt: Date.now() - 30 * DAY,
    dueAt: Date.now() + 300 * DAY,
    ...some,
  })
export const WRENCHES = [
  inUse('TW-1', 'click wrench, half inch', { max: 110 }),
  inUse('TW-2', 'click wrench from the old crib', { unit: 'lbf·ft', max: 80 }),
  inUse('IW-1', 'dial wrench', { kind: 'indicating', unit: 'lbf·ft', max: 80 }),
]

const HANDS = [
  person('tom', { name: 'Tom Garrick', initials: 'TG', paint: 'green' }),
  person('ines', { name: 'Ines Falk', initials: 'IF', paint: 'plum' }),
]
const PINS = { ada: '2749', tom: '1357', ines: '9753' }

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
  const founder = { name: 'Ada Brook', initials: 'AB', pin: PINS.ada, code: await server.firstRunCode() }
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
