/** The holes of a round at the bench, and what an insert entry becomes. */
import { describe, expect, test } from 'vitest'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedJoint } from '../../../shared/plan/types'
import { sectionOf } from '../../../web/drawings/bolt-in-hole'
import { sectionFor } from '../../../web/drawings/hole-section'
import { entryWords, holeCures, holeRows } from '../../../web/job/record/hole-rows'
import {
  holesNamed,
  holeView,
  insertCommand,
  mayGoIn,
  NO_INSERT,
  notedHoles,
  offeredLengths,
  outerThreads,
  usualLengths,
} from '../../../web/pages/bench/holes'
import { type Given, hole, place } from '../../shop/acts'
import { floor } from '../../shop/given'
import { START } from '../../shop/time'
import { words } from '../../shop/words'

/** The floor's plan: M8 bolts of 30 mm through 18 mm into 16 mm of thread; or studs of 40 in nuts. */
function knowing(but: Partial<AdoptedJoint> = {}): Given {
  const { plan } = floor().job
  const steps = plan.steps.map((step) => ({
    ...step,
    joints: step.joints.map((joint) =>
      joint.id === 'JB'
        ? {
            ...joint,
            thread: 'M8x1.25',
            grade: '8.8',
            lengthMm: 30,
            hole: { material: 'cast aluminium', stackMm: 18, depthMm: 20, threadMm: 16 },
            ...but,
          }
        : joint,
    ),
  }))
  return { type: 'PlanAdopted', by: 'sup', doneAt: START, clockOffsetMs: 0, plan: { ...plan, steps } }
}
const solid = {
  condition: 'insert',
  insert: { kind: 'solid', lengthMm: 9, setDownMm: 0.5 },
  threadMm: 12,
} as const
function at(...happened: Given[]) {
  const { job } = floor(...happened)
  const joint = indexPlan(job.plan).jointById.get('JB') as AdoptedJoint
  const round = {
    key: 'JB:1',
    joint,
    title: joint.title,
    positions: joint.positions.map(({ n }) => n),
    ordered: false,
  }
  return { job, joint, round }
}

describe('the holes of a round', () => {
  test('a bolt that bottoms in the maker’s own hole is told once, for all that are alike', () => {
    const hole = { material: 'cast aluminium', stackMm: 10, depthMm: 18, threadMm: 18 }
    const { job, round } = at(knowing({ lengthMm: 32, hole }))
    const [only, ...others] = notedHoles(job, round)
    expect(others).toEqual([])
    expect(only).toMatchObject({ against: true, alike: round.positions })
    expect(only && holesNamed(only)).toBe('Holes 1–8')
    expect(only?.fits).toBe(
      'The bolt of 32 mm bottoms out, 4 mm too long: it would show its torque and clamp nothing.',
    )
  })

  test('those not as the maker left them are noted, what stops a signature first', () => {
    const { job, round } = at(
      knowing(),
      hole('JB', 1, { condition: 'worn' }),
      hole('JB', 3),
      hole('JB', 5, solid),
    )
    expect(notedHoles(job, round).map(({ position, against }) => [position, against])).toEqual([
      [3, true],
      [5, true],
      [1, false],
    ])
    expect(notedHoles(job, round)[1]?.fits).toContain('bottoms out')
    expect(notedHoles(job, round)[0]?.fits).toBeUndefined()
    expect(notedHoles(at(knowing()).job, round)).toEqual([])
  })
  test('a length that is tried is judged, without being recorded', () => {
    const { job, joint } = at(knowing(), hole('JB', 5, solid))
    expect(holeView(job, joint, 5).against).toBe(true)
    expect(holeView(job, joint, 5, 28)).toMatchObject({ against: false })
    expect(holeView(job, joint, 5, 28).fits).toContain('comes near the bottom')
    expect(holeView(job, joint, 2).fits).toBeUndefined()
    expect(holeView(job, joint, 2).is).toBe('thread as the maker left it')
  })
  test('an insert that cannot be in that hole is said in a sentence', () => {
    const { job, joint } = at(knowing(), hole('JB', 5, { ...solid, insert: { kind: 'solid', lengthMm: 40 } }))
    expect(holeView(job, joint, 5).fits).toContain('does not fit a thread 12 mm deep')
  })
  test('lengths offered: the plan’s, the one there, the right ones; the shortest first', () => {
    const wire = { condition: 'insert', insert: { kind: 'wire', lengthMm: 8 } } as const
    const { job, joint } = at(knowing(), hole('JB', 5, wire), place('JB', [5], { lengthMm: 25 }))
    expect(offeredLengths(joint, holeView(job, joint, 5))).toEqual([25, 28, 30])
    expect(mayGoIn(joint)).toEqual(['new', 'reused'])
    expect(mayGoIn({ ...joint, use: { kind: 'one_use' } })).toEqual(['new'])
  })
  test('an entry becomes a command once kind and length are there', () => {
    expect(insertCommand('JB', 4, NO_INSERT)).toBeUndefined()
    expect(insertCommand('JB', 4, { ...NO_INSERT, lengthMm: '12' })).toBeUndefined()
    expect(insertCommand('JB', 4, { ...NO_INSERT, kind: 'wire', lengthMm: '.' })).toBeUndefined()
    expect(
      insertCommand('JB', 4, {
        kind: 'solid',
        lengthMm: '12',
        setDownMm: '0.5',
        threadMm: '18.5',
        cureHours: '12',
        outerThread: 'M12x1.5',
        doneBy: ' a machine shop ',
      }),
    ).toEqual({
      type: 'RecordHole',
      jointId: 'JB',
      position: 4,
      condition: 'insert',
      insert: { kind: 'solid', lengthMm: 12, setDownMm: 0.5, outerThread: 'M12x1.5' },
      threadMm: 18.5,
      cureMinutes: 720,
      doneBy: 'a machine shop',
    })
    // A wire insert has no outer thread to name.
    expect(
      insertCommand('JB', 4, { ...NO_INSERT, kind: 'wire', lengthMm: '12', outerThread: 'M12x1.5' })?.insert,
    ).toEqual({ kind: 'wire', lengthMm: 12 })
  })
  test('usual lengths and outer threads follow the thread; a pipe thread has none', () => {
    const { joint } = at(knowing())
    expect(usualLengths(joint).map(({ mm }) => mm)).toEqual([8, 12, 16])
    expect(outerThreads(joint)[0]).toBe('M10x1.25')
    expect(outerThreads({ ...joint, thread: 'R1/8' })).toEqual([])
  })
})

describe('the section of a hole', () => {
  test('draws what was reckoned: what holds and what is clear', () => {
    const { job, joint } = at(knowing(), hole('JB', 5, solid))
    const view = holeView(job, joint, 5, 28)
    if (!view.fit) throw new Error('no fit')
    const drawn = sectionOf(sectionFor(view.fit))
    expect(drawn.engaged.to - drawn.engaged.from).toBeCloseTo(view.fit.fit.engagementMm, 9)
    expect((drawn.clear?.to ?? 0) - (drawn.clear?.from ?? 0)).toBeCloseTo(view.fit.fit.clearanceMm, 9)
  })
  test('a stud stands above its nut; one that bottoms stands out further, and its nut still seats', () => {
    const stud = {
      hole: { material: 'cast aluminium', stackMm: 18, aboveMm: 10, depthMm: 20, threadMm: 16 },
      lengthMm: 40,
    }
    const { job, joint } = at(knowing(stud))
    const drawnAt = (mm: number) => {
      const found = holeView(job, joint, 1, mm).fit
      if (!found) throw new Error('no fit')
      return sectionOf(sectionFor(found))
    }
    expect(drawnAt(40)).toMatchObject({ bolt: { from: -28, to: 12 }, head: { to: -18 } })
    expect(drawnAt(50)).toMatchObject({ bolt: { from: -34, to: 16 }, head: { to: -18 } })
    expect(drawnAt(50).gap).toBeUndefined()
    expect(drawnAt(50).top).toBeLessThanOrEqual(-34)
  })
})

describe('the register', () => {
  test('tells each place: all entries, what goes in, what stops a signature', () => {
    const { job } = at(
      knowing(),
      hole('JB', 5),
      hole('JB', 5, { ...solid, cureMinutes: 60, doneBy: 'a machine shop' }),
      hole('JB', 2),
    )
    const rows = holeRows(job)
    expect(rows.map(({ position, entries, against }) => [position, entries.length, against])).toEqual([
      [2, 1, true],
      [5, 2, true],
    ])
    expect(rows[0]?.goesIn).toBe('')
    expect(rows[1]?.goesIn).toContain('bottoms out')
    const [, last] = rows[1]?.entries ?? []
    expect(last && entryWords(last, words)).toMatch(
      /^solid insert, 9 mm long, 0.5 mm below the face; full thread 12 mm, done by a machine shop, cures until \d\d:\d\d\.$/,
    )
    expect(holeRows(job, [])).toEqual([])
    const until = last?.curesUntil ?? 0
    expect(holeCures(job, until - 1, words)).toHaveLength(1)
    expect(holeCures(job, until, words)).toEqual([])
  })
})
