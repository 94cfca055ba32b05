/** The numbered record: an edition says what was so, whatever the log has had since. */
import { describe, expect, test } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import { auditLines } from '../../../web/job/record/verdict'
import { coveredSteps, type Edition, editionOf, inGroups } from '../../../web/pages/record/edition'
import {
  doubtLines,
  gateRows,
  gateWords,
  measurementRows,
  peopleOf,
  sealantRows,
  secondWords,
  signatureRows,
} from '../../../web/pages/record/edition-rows'
import { findJoints } from '../../../web/pages/record/find'
import { aboard, releasable, release, released } from '../../shop/releasing-engine'
import { caps, claim, read, sign, tell, words } from '../../shop/small-engine'

type Move = [string, JobCommand]
const note: Move = ['suvi', { type: 'AddNote', text: 'weeps a little' }]
const toFitting: Move[] = [...released, release('to_fitting')]

function edition(told: ReturnType<typeof tell>, number: string): Edition {
  const found = editionOf('j1', told.events, number)
  return 'edition' in found ? found.edition : expect.fail(`no record ${number}`)
}

describe('an edition', () => {
  test('is the job before its release, and covers the log to that entry', () => {
    const told = releasable(...toFitting)
    const { job, release: word, since } = edition(told, 'E-1-F1')
    expect(job.version).toBe(word.version)
    expect(word.version).toBe(told.events.length - 1)
    expect(word.head).toBe(`hash-of-${word.version}`)
    expect(since).toEqual([])
  })
  test('stays the same whatever comes later; what came is told apart', () => {
    const then = edition(releasable(...toFitting), 'E-1-F1')
    const later = edition(releasable(...toFitting, note, ...aboard), 'E-1-F1')
    expect(later.job).toEqual(then.job)
    expect(later.release).toEqual(then.release)
    expect(later.since.map(({ event }) => event.type)).toEqual([
      'NoteAdded',
      'StepClaimed',
      'ReadingTaken',
      'StepSigned',
    ])
  })
  test('withdrawn by rework, it still says what was so', () => {
    const then = edition(releasable(...toFitting), 'E-1-F1')
    const after = edition(releasable(...toFitting, read('suvi', 'JR1', 1, 1, 70)), 'E-1-F1')
    expect(after.release.withdrawn?.stepId).toBe('R1')
    expect(after.job).toEqual(then.job)
    expect(auditLines(after.job).find(({ joint }) => joint === 'JR1')?.verdict).toBe('proven')
    expect(auditLines(after.now).find(({ joint }) => joint === 'JR1')?.verdict).toBe('flagged')
  })
  test('a warranty case leads to the next number; the first keeps its own', () => {
    const told = releasable(
      ...toFitting,
      ...aboard,
      release('to_owner'),
      ['bram', { type: 'OpenWarranty', complaint: 'weeps oil' }],
      ['bram', { type: 'CloseWarranty', finding: 'no fault found: dry after an hour' }],
      release('to_owner'),
    )
    expect(edition(told, 'E-1-R1').job.warranties).toEqual([])
    expect(edition(told, 'E-1-R2').job.warranties.map(({ complaint }) => complaint)).toEqual(['weeps oil'])
    expect(edition(told, 'E-1-R2').job.warranties[0]?.closed?.finding).toBe(
      'no fault found: dry after an hour',
    )
    expect(edition(told, 'E-1-R2').release.edition).toBe(2)
  })
  test('a number that is none says which there are; a log with a gap shows nothing', () => {
    const { events } = releasable(...toFitting)
    expect(editionOf('j1', events, 'E-1-R1')).toEqual({ missing: 'number', numbers: ['E-1-F1'] })
    expect(editionOf('j1', events.toSpliced(3, 1), 'E-1-F1')).toEqual({ missing: 'gap', numbers: [] })
  })
  test('a release to fitting answers for its stages only', () => {
    const { job } = releasable(...toFitting)
    expect([...coveredSteps(job, 'to_fitting')]).toEqual(['R1', 'R2'])
    expect([...coveredSteps(job, 'to_owner')]).toEqual(['R1', 'R2', 'R3'])
  })
  test('a hash in groups of eight', () => {
    expect(inGroups('0123456789abcdef01')).toBe('01234567 89abcdef 01')
  })
})

describe('what an edition says', () => {
  test('who signed and who looked; a waived second is accepted, never proven', () => {
    const rows = signatureRows(
      edition(releasable(...toFitting), 'E-1-F1').job,
      releasable(...toFitting).job.plan.steps,
    )
    expect(rows.map((row) => [row.stepId, row.first?.by, secondWords(row, words)])).toEqual([
      ['R1', 'suvi', 'Bram, +6 min'],
      ['R2', 'bram', 'none asked'],
      ['R3', undefined, 'none asked'],
    ])
    const waived = tell(...caps, sign('bram', 'S1'), [
      'bram',
      { type: 'Waive', what: { kind: 'second', stepId: 'S1', setId: 'step' }, reason: 'alone today' },
    ])
    const [cap] = signatureRows(waived.job, waived.job.plan.steps)
    expect(cap && secondWords(cap, words)).toBe('missing, accepted with a reason')
  })
  test('a late second and the doer’s own look are marked', () => {
    const row = {
      stepId: 'S1',
      title: 'Caps',
      first: { by: 'bram', doneAt: 0 },
      secondAsked: true,
      accepted: false,
    }
    const by = { by: 'suvi', doneAt: 0, late: true as const }
    const said = { ...words, moment: () => 'then' }
    expect(secondWords({ ...row, second: { ...by, through: 'sign_in' } }, said)).toBe(
      'Suvi, then, late: covered already',
    )
    expect(secondWords({ ...row, second: { by: 'bram', doneAt: 0, through: 'own_recheck' } }, said)).toBe(
      'Bram, then, second-signed by the same person',
    )
    expect(secondWords({ ...row, look: { by: 'bram', doneAt: 0, personId: 'suvi' } }, said)).toBe(
      'look noted: Suvi, then; no signature',
    )
  })
  test('measurements with their instrument, the struck one too', () => {
    const measure = (value: number): Move => [
      'bram',
      {
        type: 'TakeMeasurement',
        stepId: 'S3',
        measurementId: 'float',
        place: 'crank',
        value,
        instrument: 'dial 3',
      },
    ]
    const told = tell(claim('bram', 'S3'), measure(0.3), measure(0.2))
    const rows = measurementRows(told.job, told.job.plan.steps, words)
    expect(rows.map(({ entry, remark }) => [entry.value, entry.instrument, remark])).toEqual([
      [0.3, 'dial 3', 'measured again by Bram'],
      [0.2, 'dial 3', 'within'],
    ])
  })
  test('readings that count although something about them is odd', () => {
    const told = tell(read('suvi', 'J-rod', 1, 1, 40), read('suvi', 'J-rod', 2, 1, 40))
    expect(doubtLines(told.job, told.job.plan.steps, words)).toHaveLength(1)
    expect(doubtLines(told.job, told.job.plan.steps, words)[0]).toMatch(/^S2 Rod cap bolts 1–2, pass 1: /)
  })
  test('a plan without seals or gates has no rows of them, and the key names everybody', () => {
    const { job } = releasable(...toFitting)
    expect(sealantRows(job, job.plan.steps)).toEqual([])
    expect(gateRows(job, job.plan.steps)).toEqual([])
    expect(peopleOf(job, 'bram')).toEqual(['bram', 'suvi'])
  })
  test('a gate says its answer, or that nobody gave one', () => {
    const row = { stepId: 'S1', text: 'Rag out', photos: [], reckoned: false, waived: false }
    expect(gateWords(row, words)).toBe('not answered')
    expect(gateWords({ ...row, waived: true }, words)).toBe('accepted with a reason')
    expect(gateWords({ ...row, reckoned: true }, words)).toBe('answered by the record')
    expect(
      gateWords({ ...row, answer: { by: 'suvi', doneAt: 0, count: 4 } }, { ...words, moment: () => 'then' }),
    ).toBe('4 counted, Suvi, then')
  })
})

test('a joint is found by part of any word of its name, its step’s, or its id, as it is asked on the telephone', () => {
  const groups = [
    { joint: { id: 'G-F4', title: 'Adaptor bolts' }, step: { id: 'F4', title: 'Oil filter adaptor' } },
    { joint: { id: 'G-E6a', title: 'Filter head bolts' }, step: { id: 'E6', title: 'Lift pump' } },
    { joint: { id: 'G-B4', title: 'Rod bolts' }, step: { id: 'B4', title: 'Pistons in' } },
  ] as unknown as Parameters<typeof findJoints>[0]
  const found = (asked: string) => findJoints(groups, asked).map(({ jointId }) => jointId)
  expect(found('filter')).toEqual(['G-F4', 'G-E6a'])
  expect(found(' OIL  filt ')).toEqual(['G-F4'])
  expect(found('g-b4')).toEqual(['G-B4'])
  expect(found('sump')).toEqual([])
  expect(found('  ')).toEqual([])
})
