/**
 * The demonstration's log: four engines of Tarn Quay, as they stand on D0 at 09:45.
 *
 * E-101 has 31 of 50 steps done and its manifold nuts stopped in pass 2; E-105 stopped in the last pass of
 * its head; E-108 has its short block; E-102 has no plan yet. The order of the steps is the shop's, not only
 * a possible one: the desk would refuse what the plan forbids.
 */

import type { Desk } from '../server/desk'
import type { People } from '../server/people'
import type { Engine } from '../shared/job/types'
import { shopClock } from './clock'
import { type Play, playThrough, type Values } from './play'
import { openingCommands, PEOPLE, PINS, planFile } from './shop'

type Done = [stepId: string, doer: string, day: number, time: string, second?: string, values?: Values]

const E101: readonly Done[] = [
  ['A1', 'jory', -12, '08:00'],
  ['A2', 'jory', -12, '10:00'],
  ['A3', 'bram', -11, '10:10', 'suvi'],
  ['B1', 'bram', -10, '08:30', undefined, { 'main-clearance': [0.044, 0.046, 0.045, 0.048] }],
  ['B2', 'bram', -9, '10:50', 'suvi', { 'end-float': [0.17], turning: [4.2] }],
  ['B3', 'bram', -9, '13:15', undefined, { 'top-gap': [0.31, 0.32, 0.3], 'second-gap': [0.38, 0.4, 0.37] }],
  ['B4', 'suvi', -8, '14:20', 'bram', { 'side-clearance': [0.22, 0.24, 0.21], turning: [13] }],
  ['B5', 'bram', -7, '08:10', undefined, { protrusion: [0.62, 0.63, 0.61] }],
  ['B6', 'jory', -7, '08:45'],
  ['B7', 'suvi', -7, '10:00', undefined, { 'cam-float': [0.11] }],
  ['C1', 'suvi', -7, '11:00', 'bram', { backlash: [0.1] }],
  ['C2', 'suvi', -7, '13:30', 'bram'],
  ['C3', 'jory', -7, '14:30'],
  ['C4', 'jory', -6, '08:20'],
  ['C5', 'suvi', -6, '09:55', 'bram'],
  ['C6', 'jory', -6, '13:50'],
  ['C7', 'bram', -6, '15:20', 'suvi'],
  ['C8', 'bram', -6, '15:55', 'suvi'],
  ['C9', 'bram', -6, '16:25', 'odile'],
  ['D1', 'bram', -5, '11:10', 'suvi'],
  ['D2', 'suvi', -5, '13:00'],
  ['D3', 'bram', -5, '13:50', undefined, { inlet: [0.21, 0.2, 0.2], exhaust: [0.25, 0.27, 0.25] }],
  ['D4', 'jory', -5, '14:25'],
  ['E2', 'jory', -5, '14:45', undefined, { resistance: [0.8, 0.9, 0.8] }],
  ['E3', 'suvi', -5, '15:05', 'bram'],
  ['E4', 'jory', -4, '08:15'],
  ['E6', 'jory', -4, '09:00'],
  ['F1', 'jory', -3, '08:20'],
  ['F2', 'jory', -3, '09:30'],
  ['F3', 'suvi', -3, '10:30'],
  ['F4', 'suvi', -2, '13:08', 'bram'],
]

const E108: readonly Done[] = [
  ['A1', 'jory', -4, '10:30'],
  ['A2', 'jory', -4, '13:10'],
  ['A3', 'suvi', -3, '13:10', 'bram'],
  ['B1', 'suvi', -3, '14:00'],
  ['B2', 'suvi', -2, '08:20', 'bram'],
  ['B3', 'bram', -2, '09:40'],
  ['B4', 'bram', -2, '10:50', 'suvi'],
  ['B5', 'bram', -2, '14:10'],
  ['B6', 'jory', -1, '08:30'],
  ['B7', 'jory', -1, '10:00'],
]

interface Opened {
  id: string
  number: string
  engine: Engine
  owner: string
  agreed: string
  day: number
  planId?: string
}

const JOBS: readonly Opened[] = [
  {
    id: 'e-101',
    number: 'E-101',
    engine: { model: 'Corran M38', serial: 'CM38-20417', drives: 'work boat Pale Heron' },
    owner: 'Sundrey Oyster Company',
    agreed: 'Full rebuild, refit aboard',
    day: -13,
    planId: 'corran-m38',
  },
  {
    id: 'e-102',
    number: 'E-102',
    engine: { model: 'Halvard F52', serial: 'HF52-1138', drives: 'tractor' },
    owner: 'Mrs Rook, Uphill Farm',
    agreed: 'Liners, pistons, bearings',
    day: -5,
  },
  {
    id: 'e-105',
    number: 'E-105',
    engine: { model: 'Ottersby S9', serial: 'OS9-0356', drives: 'ferry launch' },
    owner: 'Ferry Volunteers',
    agreed: 'Head, valves',
    day: -4,
    planId: 'ottersby-s9',
  },
  {
    id: 'e-108',
    number: 'E-108',
    engine: { model: 'Corran M38', serial: 'CM38-20588', drives: 'launch Little Auk' },
    owner: 'Fen Pilots',
    agreed: 'Full rebuild',
    day: -5,
    planId: 'corran-m38',
  },
]

export interface SeedParts {
  desk: Desk
  people: People
  newId: () => string
  now: number
  /** The repository's folder, for the plan files. */
  repo: string
}

export interface DemoPerson {
  id: string
  name: string
  pin: string
}

export async function seedDemo({ desk, people, newId, now, repo }: SeedParts): Promise<DemoPerson[]> {
  const clock = shopClock(now)
  const play = playThrough(desk, newId)
  const plans = ['corran-m38', 'ottersby-s9'].map((name) => planFile(repo, name))
  const pins = PEOPLE.map(({ id }) => people.setPin(id, PINS[id] as string))

  await play.send('shop', 'odile', clock.at(-14, '08:00'), openingCommands(clock, plans))
  const editions = new Map(plans.map(({ id, edition }) => [id, edition]))
  for (const job of JOBS) await openJob(play, job, clock.at(job.day, '16:00'), editions)

  const steps = [
    ...E101.map((done) => ({ jobId: 'e-101', done })),
    ...E108.map((done) => ({ jobId: 'e-108', done })),
    { jobId: 'e-105', done: ['A1', 'suvi', -1, '08:20'] as Done },
    { jobId: 'e-105', done: ['A2', 'suvi', -1, '13:20'] as Done },
  ].map(({ jobId, done: [stepId, doer, day, time, second, values] }) => ({
    at: clock.at(day, time),
    run: (at: number) => play.doStep(jobId, stepId, doer, at, second, values),
  }))
  for (const { at, run } of steps.sort((a, b) => a.at - b.at)) await run(at)

  await play.beginJoint('e-101', 'F5', 'bram', clock.at(0, '08:12'), {
    joint: 'G-F5',
    fullPasses: 1,
    throughPosition: 3,
  })
  await play.beginJoint('e-105', 'B1', 'suvi', clock.at(0, '09:20'), {
    joint: 'H-B1',
    fullPasses: 2,
    throughPosition: 4,
  })
  await Promise.all(pins)
  return PEOPLE.map(({ id, name }) => ({ id, name, pin: PINS[id] as string }))
}

async function openJob(play: Play, job: Opened, at: number, editions: ReadonlyMap<string, number>) {
  const { id, number, engine, owner, agreed, planId } = job
  await play.send(`job:${id}`, 'hattie', at, [{ type: 'OpenJob', number, engine, owner, agreed }])
  const edition = planId === undefined ? undefined : editions.get(planId)
  if (planId !== undefined && edition !== undefined)
    await play.send(`job:${id}`, 'odile', at + 20 * 60_000, [{ type: 'AdoptPlan', planId, edition }])
}
