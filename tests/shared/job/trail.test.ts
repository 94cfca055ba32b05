/** The trail: every kind of event is said in one sentence, fit to read years later. */
import { describe, expect, test } from 'vitest'
import { decide } from '../../../shared/job/decide'
import type { JobEvent } from '../../../shared/job/events'
import { evolveAll, newJob } from '../../../shared/job/evolve'
import { jobEventSchema } from '../../../shared/job/schema'
import { trailLine } from '../../../shared/job/trail'
import type { Job, PlannedJob } from '../../../shared/job/types'
import { isRefusal } from '../../../shared/log'
import {
  type Act,
  adoptPlan,
  answer,
  arrived,
  bead,
  changeHold,
  claim,
  clear,
  click,
  closed,
  closeWarranty,
  count,
  type Given,
  handOver,
  hole,
  leaveOut,
  look,
  measure,
  note,
  open,
  photo,
  place,
  promise,
  putDown,
  raise,
  recheck,
  release,
  restart,
  scale,
  settle,
  shows,
  sign,
  slacken,
  strike,
  strikeMeasured,
  takeOff,
  turn,
  waive,
  warranty,
  withdraw,
} from '../../shop/acts'
import { given } from '../../shop/given'
import { uuid } from '../../shop/ids'
import { coverAdopted, hoodOn } from '../../shop/plans/cover-engine'
import { contextOf } from '../../shop/run'
import { testShop } from '../../shop/shop'
import { all, buildDone, liftDone } from '../../shop/stories'
import { START } from '../../shop/time'
import { words } from '../../shop/words'

const shop = { ...testShop, selfRecheck: { allowed: true, afterMinutes: 5 } } as const

/** Everything that happens in a story, with the job as it stood after each event. */
function told(...happened: Given[]): { event: JobEvent; job: Job; sentence: string }[] {
  let job = newJob('job-1')
  const lines: { event: JobEvent; job: Job; sentence: string }[] = []
  for (const [index, one] of (happened.flat(9) as (Act | JobEvent)[]).entries()) {
    const outcome = 'command' in one ? decide(job, one.command, contextOf(one, index + 1, shop)) : [one]
    if (isRefusal(outcome)) throw new Error(`${JSON.stringify(one)}: ${outcome.refused}`)
    for (const event of outcome) {
      job = evolveAll(job, [event])
      const line = trailLine(job, { version: job.version, recordedAt: START, event }, words)
      lines.push({ event, job, sentence: line.sentence })
    }
  }
  return lines
}

const idOf = (n: number) => uuid(n).slice(-8)

const onTheFloor = (): Given[] => [
  open(),
  adoptPlan({ planId: 'floor-engine' }),
  raise(['twin'], { expectedAt: START }),
  changeHold(idOf(3), { what: 'two shims', expectedAt: START + 1 }),
  clear(idOf(3)),
  leaveOut('JB', [7, 8], 'lift'),
  withdraw(idOf(6)),
  [promise('2030-02-01'), note('rust in the bore', { stepId: 'pump' }), note('no oil')],
  [claim('twin'), all('JT', [1], 20), putDown('twin', { note: 'phone' }), claim('twin')],
  [
    restart('JT', 1),
    handOver('twin', 'bo', { note: 'yours' }),
    handOver('twin', 'ana', { by: 'bo' }),
    putDown('twin'),
  ],
  [
    claim('housing'),
    scale('JB', 19, { adapter: { wrenchMm: 300, adapterMm: 50, angleDeg: 0 } }),
    count('JB', 8),
  ],
  [shows('JB', 1, 22), sign('housing'), recheck('housing', { at: 800 }), shows('JB', 1, 22)],
  [place('JB', [3], { condition: 'removed' }), place('JO', [1], { condition: 'reused' })],
  [claim('pump'), putDown('pump', { by: 'dee' })],
  [
    hole('JB', 4),
    hole('JB', 4, {
      condition: 'insert',
      insert: { kind: 'solid', lengthMm: 12, setDownMm: 0.5 },
      doneBy: 'the machine shop.',
      cureMinutes: 720,
      threadMm: 18.5,
    }),
  ],
]

describe('the trail', () => {
  const stories = [
    told(onTheFloor()),
    told(
      open(),
      adoptPlan({ planId: 'floor-engine' }),
      buildDone(),
      look('closing', 'dee'),
      release('to_fitting', { at: 900 }),
      liftDone(),
      release('to_owner', { at: 950 }),
      warranty(),
      closeWarranty(),
      shows('JP', 1, 33, { by: 'bo' }),
      place('JP', [2], { condition: 'temporary' }),
      waive({ kind: 'fastener', jointId: 'JP', position: 2 }),
    ),
    told(
      open(),
      adoptPlan(),
      [measure('cap 1', 0.2), strikeMeasured(idOf(3)), answer('shells', { count: 4 }), answer('turns')],
      [
        settle('JN', 12),
        settle('JN', 13, { basis: { kind: 'source', title: 'Manual', edition: '3', page: 'p. 9' } }),
      ],
      [settle('JN', 14, { basis: { kind: 'computed', method: 'by thread', inputs: 'M16, bronze' } })],
      [
        claim('head'),
        shows('JH', 2, 40),
        strike(idOf(11)),
        click('JH', 2),
        scale('JC', 37, { wrenchId: 'foot' }),
      ],
      [
        turn('JH', 2, 90),
        slacken('JH', 2),
        bead('sump'),
        closed('sump'),
        photo('p', { caption: 'front' }),
        arrived('p'),
      ],
    ),
  ]
  const lines = [...stories.flat(), ...told(open(), coverAdopted, hoodOn(), takeOff('hood'))]

  test('says every kind of event, and nothing undefined', () => {
    for (const { sentence } of lines) {
      expect(sentence).not.toMatch(/undefined|NaN|\[object|null/)
      expect(sentence).toMatch(/[.:”].*$/)
      expect(sentence.length).toBeGreaterThan(15)
    }
    const said = new Set(lines.map(({ event }) => event.type))
    const kinds = jobEventSchema.options.map(({ shape }) => shape.type.value)
    expect(kinds.filter((kind) => !said.has(kind))).toEqual([])
  })
  test('what people wrote ends with one mark, theirs where they set one', () => {
    const spoken = (text: string): string[] =>
      told(
        open(),
        adoptPlan({ planId: 'floor-engine' }),
        raise(['twin'], { what: text }),
        raise(['pump'], { what: text, expectedAt: START }),
        changeHold(idOf(3), { what: `other ${text}`, expectedAt: START + 1 }),
        { ...clear(idOf(3)), command: { type: 'ClearHold', holdId: idOf(3), how: text } },
        { ...promise('2030-02-01'), command: { type: 'PromiseDate', date: '2030-02-01', reason: text } },
        note(text),
        note(text, { stepId: 'pump' }),
        photo('p', { caption: text }),
        arrived('p'),
      ).map(({ sentence }) => sentence)
    const plain = spoken('two shims')
    expect(spoken('two shims.')).toEqual(plain)
    for (const one of plain) expect(one).toMatch(/[^.]\.$/)
    for (const text of ['two shims?', 'two shims!', 'two shims…', 'they said “two shims.”'])
      for (const one of spoken(text)) expect(one).not.toMatch(/[.!?…][”’]?\.$/)
  })
  test('nothing is said twice in one sentence', () => {
    for (const { sentence } of lines) expect(sentence).not.toMatch(/\b(\w+),? \1\b|\.\.|,,/i)
    const named = told(
      open(),
      adoptPlan({ planId: 'floor-engine' }),
      photo('p', { caption: 'Port 1, clear.', place: 'port 1' }),
      arrived('p'),
      [raise(['pump']), changeHold(idOf(5), { what: 'three shims' })],
      [claim('twin'), handOver('twin', 'bo')],
    ).map(({ sentence }) => sentence)
    expect(named.slice(2)).toEqual([
      'ana took a photo: Port 1, clear.',
      'The photo “Port 1, clear” has arrived.',
      expect.stringMatching(/on hold/),
      expect.stringMatching(/^\w+ changed the hold on pump Step pump: three shims\.$/),
      'ana claimed twin Step twin.',
      'ana handed twin Step twin over to bo.',
    ])
  })
  test('every event that a rule gives is one the schema reads', () => {
    for (const { event } of lines) expect(jobEventSchema.parse(event)).toEqual(event)
  })
  test('each kind of waiver is named', () => {
    const { job } = given()
    const kinds = [
      { kind: 'reading', readingId: 'none' },
      { kind: 'fastener', jointId: 'JH', position: 1 },
      { kind: 'measurement', entryId: 'none' },
      { kind: 'second', stepId: 'caps', setId: 'cap-1' },
      { kind: 'hiding', stepId: 'cover' },
      { kind: 'sealant', stepId: 'sump' },
      { kind: 'gate', stepId: 'caps', gateId: 'turns' },
    ] as const
    const said = kinds.map((what) => {
      const event = { type: 'Waived', id: 'w', what, reason: 'seen', by: 'dee', doneAt: START } as const
      return trailLine(job as PlannedJob, { version: 3, recordedAt: START, event }, words).sentence
    })
    expect(new Set(said).size).toBe(kinds.length)
    expect(said[3]).toBe('dee accepted that Cap 1 of caps Step caps has no second signature: seen.')
    for (const one of said) expect(one).not.toMatch(/undefined/)
  })
  test('names the step a line belongs to', () => {
    const [first] = stories[0] ?? []
    expect(first?.event.type).toBe('JobOpened')
    const { job } = given()
    const event: JobEvent = {
      type: 'RoundRestarted',
      jointId: 'JH',
      positions: [1],
      fromPass: 1,
      how: 'again',
      by: 'ana',
      doneAt: START,
    }
    expect(trailLine(job, { version: 3, recordedAt: START, event }, words)).toMatchObject({
      stepId: 'head',
      version: 3,
    })
  })
})
