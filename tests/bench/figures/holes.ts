/**
 * A register of 200 positions reckoned anew, as a page does when it opens and, with less, after every event: the hole of each place, the fit of what
 * goes into it, and the row that is shown. Bounded by one frame of a screen. No server is asked.
 */
import { setTimeout as pause } from 'node:timers/promises'
import type { JobEvent } from '../../../shared/job/events'
import { evolveAll, newJob } from '../../../shared/job/evolve'
import {
  boltFit,
  type HoleNow,
  holeRegister,
  isAsMade,
  misfit,
  stripsFirst,
} from '../../../shared/job/verdicts'
import { isRefusal } from '../../../shared/log'
import { adopt } from '../../../shared/plan/adopt'
import type { Joint, Plan } from '../../../shared/plan/types'
import { demoPlan } from '../../shop/plans/demo'
import { median } from '../harness/stats'
import type { Figure } from './figure'

const POSITIONS = 200
const FRAME_MS = 16.7
const RUNS = 40

/** The demonstration's plan with one joint of 200 holes, every one renewed, every second bolt of another length. */
function events(): JobEvent[] {
  const plan: Plan = demoPlan('orrath-q31')
  const [first] = plan.steps.flatMap(({ joints }) => joints)
  if (!first) throw new Error('The plan has no joint.')
  const holes: Joint = {
    ...first,
    id: 'holes',
    thread: 'M8x1.25',
    grade: '8.8',
    lengthMm: 30,
    hole: { material: 'cast aluminium', stackMm: 12, washerMm: 1.6, depthMm: 24, threadMm: 20 },
    positions: Array.from({ length: POSITIONS }, (_, at) => ({
      n: at + 1,
      x: at % 20,
      y: Math.floor(at / 20),
    })),
  }
  const { order: _, ...joint } = holes
  const steps = plan.steps.map((step, at) => (at === 0 ? { ...step, joints: [joint], sets: [] } : step))
  const done = { by: 'bench', doneAt: 1_700_000_000_000, clockOffsetMs: 0 }
  const opened: JobEvent = {
    type: 'JobOpened',
    ...done,
    number: 'F-1',
    engine: { model: 'Figure', serial: '1' },
    owner: 'nobody',
    agreed: 'nothing',
  }
  const adopted = adopt({ ...plan, steps }, { percent: { A: 5, B: 10, C: 15 }, angleDeg: 5 })
  return [
    opened,
    { type: 'PlanAdopted', ...done, plan: adopted },
    ...joint.positions.flatMap(({ n }): JobEvent[] => [
      {
        type: 'HoleRecorded',
        ...done,
        id: `hole-${n}`,
        jointId: joint.id,
        position: n,
        condition: 'insert',
        insert: { kind: n % 2 ? 'wire' : 'solid', lengthMm: 12, setDownMm: 0.5 },
        threadMm: 18 - (n % 5),
      },
      ...(n % 2
        ? []
        : [
            {
              type: 'FastenersPlaced' as const,
              ...done,
              jointId: joint.id,
              positions: [n],
              condition: 'new' as const,
              lengthMm: 28,
              flags: [],
            },
          ]),
    ]),
  ]
}

export const holes: Figure = {
  name: 'holes',
  what: `a hole register of ${POSITIONS} positions reckoned anew`,
  atMostSeconds: 30,
  async run({ say }) {
    const job = evolveAll(newJob('figure'), events())
    const { plan } = job
    if (!plan) throw new Error('The job has no plan.')
    const times: number[] = []
    let against = 0
    for (let run = 0; run < RUNS; run++) {
      // Another plan each time, so that nothing reckoned before is kept: what a page pays once, when it opens.
      const now = { ...job, plan: structuredClone(plan), version: run }
      const begun = performance.now()
      const seen: HoleNow[] = []
      against = 0
      for (const { joint, position } of holeRegister(now)) {
        const fit = boltFit(now, joint, position)
        if (fit && !isRefusal(fit)) {
          seen.push(fit)
          stripsFirst(joint, fit)
        }
        if (!isAsMade(now, joint, position) && misfit(now, joint, position)) against += 1
      }
      times.push(performance.now() - begun)
      if (seen.length !== POSITIONS) throw new Error(`${seen.length} of ${POSITIONS} holes had a fit.`)
      await pause(1)
    }
    say(`holes: ${times.map((ms) => ms.toFixed(1)).join(' ')} ms; ${against} bolts do not fit`)
    return [
      {
        figure: 'holes',
        what: `register of ${POSITIONS} positions reckoned anew`,
        unit: 'ms',
        ours: median(times),
        goal: { by: 'ours', wants: 'at most', goal: FRAME_MS, stretch: 8 },
        notes: [
          `median of ${RUNS} runs, the first without warming up at ${(times[0] ?? 0).toFixed(1)} ms; one frame is ${FRAME_MS.toFixed(1)} ms`,
          `every hole renewed; fit, verdict and weakest link of each; ${against} bolts do not fit`,
        ],
      },
    ]
  },
}
