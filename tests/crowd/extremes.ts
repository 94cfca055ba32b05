/**
 * What the screens must bear and the demonstration never asks of them: names as long as they may be, a plan of
 * five hundred steps, a joint of forty heads. Invented; no value here is for a real engine.
 */
import type { Story } from '../../seed/play'
import type { Joint, Plan, PlanStep, Position } from '../../shared/plan/types'

const STAGES = 10
const STEPS = 500
/** A ladder frame with two rows of heads round its edge. */
const HEADS = 40

export const LONG = {
  jobId: 'long',
  number: 'E-2026-EXTENDED-0000-017',
  model: 'Wetherlam-Hollinsclough V16-3200 Marine Intercooled Mark IV b',
  owner: 'Messrs Aldwinckle, Throssell, Pennyfather and Daughters, Ltd',
  drives: 'passenger ferry Duchess of the Outer Skerries, port-side engine, second of two',
  stepId: 'A2',
  jointId: 'G-ladder',
} as const

/** `count`: of steps; a whole number to each stage. */
export function longPlan(count = STEPS): Plan {
  const perStage = count / STAGES
  const steps = Array.from({ length: count }, (_, at): PlanStep => {
    const stage = String.fromCharCode(65 + Math.floor(at / perStage))
    const n = (at % perStage) + 1
    const before = at === 0 ? [] : [idAt(at - 1)]
    const ladder = at === 1
    return {
      id: `${stage}${n}`,
      stage,
      title: ladder
        ? 'Ladder frame and lower crankcase to the upper crankcase, all forty bolts'
        : `${WORDS[at % WORDS.length]}, bank ${1 + (at % 2)}, cylinder ${1 + (at % 8)}`,
      kind: ladder ? 'tighten' : at % 7 === 0 ? 'measure' : 'fit',
      needs: at === 0 ? [] : before,
      hides: [],
      minutes: { low: 10 + (at % 5) * 6, likely: 20 + (at % 5) * 10, high: 40 + (at % 5) * 15 },
      signatures: ladder || at % 9 === 4 ? 2 : 1,
      joints: ladder ? [ladderJoint()] : at % 3 === 0 ? [smallJoint(idAt(at))] : [],
      measurements: [],
      parts: [],
      gates: [],
    }
  })
  return {
    format: 'paintmark-plan/1',
    id: 'long-plan',
    edition: 1,
    title: 'Wetherlam-Hollinsclough V16-3200, complete strip and rebuild to new limits',
    family: 'diesel',
    source: 'Made up to see how the screens bear it.',
    invented: true,
    stages: Array.from({ length: STAGES }, (_, n) => ({
      id: String.fromCharCode(65 + n),
      title: STAGE_TITLES[n] ?? '',
      ...(n === STAGES - 1 ? { releases: 'to_owner' as const } : {}),
    })),
    steps,
  }

  function idAt(at: number) {
    return `${String.fromCharCode(65 + Math.floor(at / perStage))}${(at % perStage) + 1}`
  }
}

const WORDS = [
  'Big end bearing caps with their shells, numbered, in their own places',
  'Piston, rings gapped and turned',
  'Liner protrusion',
  'Rocker shaft',
  'Injector sleeve and its two seals',
  'Exhaust manifold section with bellows',
  'Valve clearances',
]
const STAGE_TITLES = [
  'Crankcase and ladder frame',
  'Crank train, port bank',
  'Crank train, starboard bank',
  'Heads, port bank',
  'Heads, starboard bank',
  'Timing and drives',
  'Fuel, injection and governor',
  'Cooling, charge air and exhaust',
  'Dressing and wiring',
  'Bench proof and delivery',
]

function ladderJoint(): Joint {
  const positions = ladderPositions()
  return {
    id: LONG.jointId,
    title: 'Ladder frame bolts, outer and inner rows',
    fastener: 'bolt',
    thread: 'M10x1.5',
    grade: '10.9',
    lengthMm: 85,
    lubrication: 'oil on threads and under head',
    class: 'A',
    use: { kind: 'reusable' },
    positions,
    outline: [{ shape: 'rect', x: 0, y: 0, w: 1150, h: 420, r: 30 }],
    // From the middle outward, side for side.
    order: [...positions]
      .sort((a, b) => Math.abs(a.x - 575) - Math.abs(b.x - 575) || a.y - b.y || a.x - b.x)
      .map(({ n }) => n),
    passes: [
      { kind: 'torque', torqueNm: 20 },
      { kind: 'torque', torqueNm: 45 },
    ],
    interruption: { torqueOnly: 'restart_pass' },
  }
}

function ladderPositions(): Position[] {
  const columns = HEADS / 4
  return Array.from({ length: HEADS }, (_, at) => ({
    n: at + 1,
    x: 35 + (at % columns) * (1080 / (columns - 1)),
    y: [40, 145, 275, 380][Math.floor(at / columns)] ?? 0,
  }))
}

const smallJoint = (stepId: string): Joint => ({
  id: `G-${stepId}`,
  title: 'Cap bolts',
  fastener: 'bolt',
  thread: 'M8x1.25',
  grade: '8.8',
  lubrication: 'dry',
  class: 'B',
  use: { kind: 'reusable' },
  positions: [
    { n: 1, x: 0, y: 0 },
    { n: 2, x: 60, y: 0 },
  ],
  passes: [{ kind: 'torque', torqueNm: 20 }],
  interruption: { torqueOnly: 'restart_pass' },
})

/** Stands in the middle of its forty bolts, with a word and a hold as long as people write them. */
export const longStory: Story = {
  jobId: LONG.jobId,
  planId: 'long-plan',
  tell({ open, step, say, hold, note, promise }) {
    open(-4, {
      number: LONG.number,
      engine: { model: LONG.model, serial: 'WH-V16-3200-IV-B/2026/00017-P', drives: LONG.drives },
      owner: LONG.owner,
      agreed:
        'Complete strip and rebuild to new limits with every bearing, liner, piston, ring and seal, as quoted in three parts in the spring, and a run on the brake with the insurer’s surveyor present.',
    })
    promise(-4, '16:50', 40, 'With the ferry’s winter lay-up; the second engine follows.')
    step('A1', 'bram', -2, '08:00', {})
    say(0, '08:00', 'bram', { type: 'ClaimStep', stepId: LONG.stepId })
    note(
      0,
      '08:05',
      'bram',
      'Two bolts of the inner row came out with polish on the shank. Measured, both within length; put aside and marked for Odile to look at before the second pass.',
      LONG.stepId,
    )
    hold(0, '08:30', 'dov', {
      kind: 'outside_work',
      stepIds: ['A9', 'B1'],
      what: 'lower crankcase to be line-bored and crack-tested at Ledder & Daughter, who wait for the surveyor’s letter',
      expected: [9, '12:00'],
    })
  },
}
