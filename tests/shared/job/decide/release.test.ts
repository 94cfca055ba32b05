/** Both releases: every reason against, what they freeze, and what comes after. */
import { describe, expect, test } from 'vitest'
import { againstWords } from '../../../../shared/job/against'
import { evolveAll } from '../../../../shared/job/evolve'
import { peopleNamed } from '../../../../shared/job/named'
import { reasonFor } from '../../../../shared/job/reason-for'
import { type Against, againstRelease, releaseInForce } from '../../../../shared/job/release'
import { jobEventSchema } from '../../../../shared/job/schema'
import {
  arrived,
  bead,
  claim,
  clear,
  closed,
  closeWarranty,
  type Given,
  leaveOut,
  leaveStep,
  note,
  open,
  photo,
  place,
  raise,
  release,
  secondSign,
  shows,
  sign,
  waive,
  warranty,
} from '../../../shop/acts'
import { floor, fresh, given } from '../../../shop/given'
import { entry } from '../../../shop/ids'
import { people } from '../../../shop/people'
import { all, buildDone, headProven, liftDone, pumpProven, pumpSigned } from '../../../shop/stories'
import { START } from '../../../shop/time'
import { words } from '../../../shop/words'

const LATER = START + 2000 * 60_000

const built = (): Given[] => [buildDone(), release('to_fitting', { at: 900 })]

const delivered = (): Given[] => [built(), liftDone(), release('to_owner', { at: 950 })]

const codes = (kind: 'to_fitting' | 'to_owner', ...happened: Given[]) =>
  againstRelease(floor(...happened).job, kind, LATER).map(({ code }) => code)

describe('releasing', () => {
  test('[RL6] numbered, with its edition and the head it covers', () => {
    const then = floor(buildDone()).when(release('to_fitting', { at: 900 }))
    then.gives({ type: 'Released', kind: 'to_fitting', number: 'E-1-F1', edition: 1, head: 'a'.repeat(64) })
    expect(then.job.releases).toMatchObject([{ version: then.before.version }])
    expect(then.events[0]).not.toHaveProperty('ownWork')
    floor(built(), liftDone())
      .when(release('to_owner', { at: 950 }))
      .gives({ type: 'Released', number: 'E-1-R1', edition: 1 })
  })
  test('[RL6] a doer who releases is recorded as such', () => {
    floor(buildDone())
      .inShop({ people: { ...people, ana: { ...people.ana, roles: ['technician', 'supervisor'] } } })
      .when(release('to_fitting', { by: 'ana', at: 900 }))
      .gives({ type: 'Released', ownWork: true })
  })
  test('[RL16] it carries what everybody in its record is called then, whatever they are called later', () => {
    const then = floor(buildDone(), note('seen', { by: 'bo' })).when(release('to_fitting', { at: 900 }))
    const [event] = then.events
    const named = event?.type === 'Released' ? event.people : undefined
    expect(Object.keys(named ?? {})).toEqual(expect.arrayContaining(['ana', 'bo', 'dee']))
    for (const [id, one] of Object.entries(named ?? {})) {
      const { name, initials } = people[id as keyof typeof people]
      expect(one).toEqual({ name, initials })
    }
    expect(then.job.releases[0]?.people).toEqual(named)
    // Somebody who did nothing on this engine is not its record's business.
    const idle = Object.keys(people).filter((id) => !peopleNamed(then.job).includes(id))
    expect(idle.length).toBeGreaterThan(0)
    for (const id of idle) expect(named).not.toHaveProperty(id)
  })
  test('[RL16] a release of an older build has none, and folds all the same', () => {
    const then = floor(buildDone()).when(release('to_fitting', { at: 900 }))
    const [event] = then.events
    if (event?.type !== 'Released') throw new Error('not released')
    const { people: _, ...older } = event
    expect(jobEventSchema.parse(older)).toEqual(older)
    expect(evolveAll(then.before, [older]).releases[0]).not.toHaveProperty('people')
  })
  test('[RL1] by a supervisor or the owner', () => {
    floor(buildDone())
      .when(release('to_fitting', { by: 'ana' }))
      .refuses('role_needed')
    floor(buildDone())
      .when(release('to_owner', { by: 'wim' }))
      .refuses('role_needed')
  })
  test('[RL2] one in force is enough', () => {
    floor(built()).when(release('to_fitting')).thenNothing()
  })
  test('[RL3] the plan has a stage for it', () => {
    given(headProven()).when(release('to_owner')).refuses('no_such_release', { kind: 'to_owner' })
  })
  test('[RL5] only where the log’s own hash is known', () => {
    floor(buildDone())
      .when({ ...release('to_fitting', { at: 900 }), head: undefined })
      .refuses('needs_the_server')
  })
  test('[RL4] every reason, each with its way out', () => {
    floor().when(release('to_fitting')).refuses('stands_against_release', { kind: 'to_fitting' })
    const { against } = (
      floor().when(release('to_fitting')).outcome as unknown as { data: { against: Against[] } }
    ).data
    expect(against).toHaveLength(9)
    for (const one of against) expect(againstWords(one, words)).toMatch(/ Do it and sign it\.$/)
  })
})

describe('what stands against it', () => {
  test('[RL11] nothing, when everything is done', () => {
    expect(codes('to_fitting', buildDone())).toEqual([])
    expect(codes('to_owner', built(), liftDone())).toEqual([])
  })
  test('[RL11] a step not signed, of its stages only', () => {
    expect(codes('to_fitting', buildDone(), bead('seal', { at: 300 }), closed('seal', { at: 301 }))).toEqual([
      'not_signed',
    ])
    expect(codes('to_owner', built())).toEqual(['not_signed', 'photo_missing', 'photo_missing'])
  })
  test('[RL11] T13: a second signature missing though a cover is on, until it is given late or accepted', () => {
    const housingAndPump = buildDone().filter((_, index) => index !== 1)
    const covered = [pumpSigned(), waive({ kind: 'hiding', stepId: 'shroud' }), housingAndPump]
    floor(covered)
      .when(release('to_fitting', { at: 900 }))
      .refuses('stands_against_release', {
        against: [{ code: 'second_missing', stepId: 'pump', signedBy: 'ana' }],
      })
    floor(covered).when(secondSign('pump')).gives({ type: 'StepSecondSigned', late: true })
    expect(codes('to_fitting', covered, secondSign('pump'))).toEqual([])
    expect(codes('to_fitting', covered, waive({ kind: 'second', stepId: 'pump', setId: 'step' }))).toEqual([])
  })
  test('[RL11] T9: class A waived at hiding and never done stands against it', () => {
    const without = buildDone().filter((_, index) => index !== 1)
    expect(codes('to_fitting', waive({ kind: 'hiding', stepId: 'shroud' }), without)).toEqual(['not_signed'])
  })
  test('[RL11] a hold on any of its steps', () => {
    expect(codes('to_fitting', buildDone(), raise(['rods', 'lift']))).toEqual(['hold_open'])
    expect(codes('to_fitting', buildDone(), raise(['lift']))).toEqual([])
    const held = [raise(['rods']), clear(entry(1))]
    expect(codes('to_fitting', held, buildDone())).toEqual([])
  })
  test('[RL11] what was left out and is due within it', () => {
    const seven = [
      leaveOut('JB', [7], 'lift', { by: 'ana' }),
      buildDone().slice(0, 3),
      [claim('housing'), all('JB', [1, 2, 3, 4, 5, 6, 8], 22), sign('housing'), secondSign('housing')],
      buildDone().slice(4),
    ]
    expect(codes('to_fitting', seven)).toEqual([])
    expect(codes('to_owner', seven)).toEqual([
      'not_released_to_fitting',
      'not_signed',
      'photo_missing',
      'photo_missing',
      'deferral_open',
    ])
  })
  test('[RL11] class A left out beyond it stands against it, a fastener or a step', () => {
    const third = [
      leaveOut('JP', [3], 'lift'),
      buildDone()[0] ?? [],
      pumpProven([1, 2]),
      buildDone().slice(2),
    ]
    expect(codes('to_fitting', third)).toEqual(['deferral_open'])
    const rods = [leaveStep('rods', 'lift'), buildDone().slice(1)]
    expect(codes('to_fitting', rods)).toEqual(['deferral_open'])
    expect(codes('to_fitting', leaveStep('rods', 'lift'), buildDone())).toEqual([])
    const trial = [leaveStep('trial', 'lift'), buildDone().slice(0, 4), buildDone().slice(5)]
    expect(codes('to_fitting', trial)).toEqual([])
  })
  test('[RL11] a photo not taken, or taken and not here yet', () => {
    const rest = [built(), claim('lift'), shows('JL', 1, 15), sign('lift')]
    const port = photo('port', { stepId: 'lift', gateId: 'aboard', place: 'port' })
    const against = (...more: Given[]) => againstRelease(floor(rest, ...more).job, 'to_owner', LATER)
    expect(against(port)).toMatchObject([
      { code: 'photo_missing', place: 'port', waiting: true },
      { code: 'photo_missing', place: 'starboard', waiting: false },
    ])
    expect(against(port, arrived('port'))).toMatchObject([{ place: 'starboard' }])
    expect(against(waive({ kind: 'gate', stepId: 'lift', gateId: 'aboard' }))).toEqual([])
  })
  test('[RL11] a sealant that cures, to its last minute', () => {
    const sealed = floor(buildDone()).job
    const at = (minute: number) => againstRelease(sealed, 'to_fitting', START + minute * 60_000)
    expect(at(826.9)).toMatchObject([{ code: 'curing', stepId: 'seal', until: START + 827 * 60_000 }])
    expect(at(827)).toEqual([])
  })
  test('[RL11] a value nobody settled, a joint signed and not final', () => {
    expect(againstRelease(given().job, 'to_fitting', LATER)).toContainEqual(
      expect.objectContaining({ code: 'no_value', joint: 'JN' }),
    )
    const bare = { type: 'StepSigned', stepId: 'pump', setId: 'step', by: 'ana', doneAt: START } as const
    expect(againstRelease(floor(bare).job, 'to_fitting', LATER)).toContainEqual(
      expect.objectContaining({ code: 'not_final', joint: 'JP', class: 'A', positions: [1, 2, 3] }),
    )
  })
  test('[RL11] for the owner, no release to fitting', () => {
    expect(codes('to_owner', buildDone(), liftDone())).toEqual(['not_released_to_fitting'])
  })
  test('each has words', () => {
    const all: Against[] = [
      { code: 'not_released_to_fitting' },
      { code: 'hold_open', holdId: 'h', what: 'a shim', stepIds: ['rods'] },
      { code: 'no_value', joint: 'JN', jointTitle: 'Plug', pass: 1 },
      { code: 'curing', stepId: 'seal', title: 'Seal', until: START },
      { code: 'photo_missing', stepId: 'lift', gateId: 'aboard', place: 'port', waiting: true },
      { code: 'photo_missing', stepId: 'lift', gateId: 'aboard', place: 'port', waiting: false },
      ...againstRelease(floor(pumpSigned(), leaveOut('JB', [7], 'shroud')).job, 'to_fitting', LATER),
    ]
    for (const one of all) {
      expect(againstWords(one, words)).not.toMatch(/undefined|NaN|\[object/)
      expect(againstWords(one, words).length).toBeGreaterThan(30)
    }
  })
})

describe('after a release', () => {
  test('[RL10] touching what it froze is recorded, and withdraws it', () => {
    const then = floor(built()).when(shows('JP', 1, 30))
    then.gives(
      { type: 'ReadingTaken' },
      { type: 'SignaturesLapsed', stepId: 'pump' },
      { type: 'ReleaseWithdrawn', kind: 'to_fitting', stepId: 'pump' },
    )
    expect(releaseInForce(then.job, 'to_fitting')).toBeUndefined()
    floor(built())
      .when(place('JO', [1]))
      .gives(
        { type: 'FastenersPlaced' },
        { type: 'SignaturesLapsed' },
        { type: 'ReleaseWithdrawn', stepId: 'rods' },
      )
    floor(built())
      .when(bead('seal', { at: 920 }))
      .gives(
        { type: 'SealantStarted' },
        { type: 'SignaturesLapsed' },
        { type: 'ReleaseWithdrawn', stepId: 'seal' },
      )
  })
  test('[RL10] work of a later stage is no such touch, nor what was left out for it', () => {
    floor(built(), claim('lift'))
      .when(shows('JL', 1, 15))
      .gives({ type: 'ReadingTaken' })
    const trial = [
      leaveStep('trial', 'lift'),
      buildDone().slice(0, 4),
      buildDone().slice(5),
      release('to_fitting', { at: 900 }),
      claim('trial'),
      place('JY', [1, 2]),
    ]
    floor(trial)
      .when(shows('JY', 1, 12))
      .gives({ type: 'ReadingTaken' })
  })
  test('[RL10] done again it is released again, as the next edition', () => {
    floor(
      built(),
      place('JS', [1, 2], { condition: 'removed' }),
      shows('JP', 1, 30),
      claim('pump'),
      shows('JP', 1, 30),
      sign('pump'),
      secondSign('pump'),
      [claim('shroud'), place('JS', [1, 2], { condition: 'reused' }), all('JS', [1, 2], 9), sign('shroud')],
    )
      .when(release('to_fitting', { at: 990 }))
      .gives({ type: 'Released', number: 'E-1-F2', edition: 2 })
  })
  test('[RL9] a warranty case opens the job again, and ends in the next edition', () => {
    const then = floor(delivered()).when(warranty())
    then.gives({ type: 'WarrantyOpened', complaint: 'weeps at the filter' })
    expect(releaseInForce(then.job, 'to_owner')).toBeUndefined()
    floor(delivered(), warranty(), closeWarranty())
      .when(release('to_owner', { at: 999 }))
      .gives({ type: 'Released', number: 'E-1-R2', edition: 2 })
  })
  test('[RL9] also by a tablet whose clock runs slow', () => {
    const then = floor(delivered()).when(warranty({ at: 5 }))
    expect(releaseInForce(then.job, 'to_owner')).toBeUndefined()
  })
  test('[RL7] [RL8] by the office, after delivery', () => {
    floor(delivered())
      .when(warranty({ by: 'ana' }))
      .refuses('role_needed')
    floor(built()).when(warranty()).refuses('not_released')
    floor(delivered(), warranty()).when(warranty()).refuses('not_released')
  })
  test('needs a plan', () => {
    fresh(open()).when(release('to_fitting')).refuses('no_plan')
  })
})

const back = (...happened: Given[]) => floor(delivered(), warranty({ at: 960 }), ...happened)

const against = (kind: 'to_fitting' | 'to_owner', ...happened: Given[]) =>
  againstRelease(back(...happened).job, kind, START + 999 * 60_000)

/** The lifting eye slackened and done again, of the stage after the release to fitting. */
const liftAgain = (): Given[] => [
  place('JL', [1], { condition: 'removed', at: 961 }),
  claim('lift', { at: 962 }),
  place('JL', [1], { condition: 'reused', at: 963 }),
  shows('JL', 1, 15, { at: 964 }),
]

describe('a warranty case', () => {
  test('[RL15] stands against the release to the owner, and no other, while nothing answers it', () => {
    expect(against('to_owner')).toEqual([
      { code: 'warranty_open', complaint: 'weeps at the filter', since: START + 960 * 60_000 },
    ])
    expect(against('to_fitting')).toEqual([])
    back()
      .when(release('to_owner', { at: 999 }))
      .refuses('stands_against_release', { kind: 'to_owner' })
    expect(againstWords(against('to_owner')[0] as never, words)).toBe(
      'The warranty case of 00:00, “weeps at the filter”, has no answer yet. Do the work and sign it, or record what was found.',
    )
    expect(reasonFor(back().job)).toEqual({ code: 'warranty', complaint: 'weeps at the filter' })
  })
  test('[RL15] is answered by a step signed through since, not by work without its signature', () => {
    expect(against('to_owner', liftAgain()).map(({ code }) => code)).toContain('warranty_open')
    expect(against('to_owner', liftAgain(), sign('lift', { at: 965 }))).toEqual([])
    back(liftAgain(), sign('lift', { at: 965 }))
      .when(release('to_owner', { at: 999 }))
      .gives({ type: 'Released', number: 'E-1-R2', edition: 2 })
    expect(reasonFor(back(liftAgain(), sign('lift', { at: 965 })).job)).toEqual({ code: 'all_signed' })
  })
  test('[RL15] also by a tablet whose clock runs slow: the order of the log counts', () => {
    expect(against('to_owner', liftAgain(), sign('lift', { at: 5 }))).toEqual([])
  })
  test('[RL12] a supervisor or the owner says what was found', () => {
    for (const by of ['ana', 'wim']) back().when(closeWarranty({ by })).refuses('role_needed')
    back()
      .when(closeWarranty())
      .gives({ type: 'WarrantyClosed', finding: 'no fault found: dry after an hour’s run' })
  })
  test('[RL13] no case is open, or it has this finding already', () => {
    floor(delivered()).when(closeWarranty()).thenNothing()
    back(closeWarranty()).when(closeWarranty()).thenNothing()
    back(closeWarranty(), release('to_owner', { at: 999 }))
      .when(closeWarranty())
      .thenNothing()
  })
  test('[RL14] the finding answers it and stands in the record; another one takes its place', () => {
    const { job } = back(closeWarranty({ at: 970 }))
    expect(againstRelease(job, 'to_owner', START + 999 * 60_000)).toEqual([])
    expect(job.warranties).toMatchObject([
      {
        complaint: 'weeps at the filter',
        closed: { by: 'dee', finding: 'no fault found: dry after an hour’s run' },
      },
    ])
    const changed = back(closeWarranty()).when(closeWarranty({ finding: 'the union was loose' }))
    changed.gives({ type: 'WarrantyClosed', finding: 'the union was loose' })
    expect(changed.job.warranties[0]?.closed?.finding).toBe('the union was loose')
  })
  test('[RL15] a second case is a case of its own', () => {
    const twice = back(
      closeWarranty(),
      release('to_owner', { at: 999 }),
      warranty({ complaint: 'again', at: 1000 }),
    )
    expect(againstRelease(twice.job, 'to_owner', START + 1001 * 60_000)).toMatchObject([
      { code: 'warranty_open', complaint: 'again' },
    ])
  })
})
