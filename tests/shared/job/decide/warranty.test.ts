/** A warranty case stands against the next release to the owner until work or a finding answers it. */
import { describe, expect, test } from 'vitest'
import { againstWords } from '../../../../shared/job/against'
import { reasonFor } from '../../../../shared/job/reason-for'
import { againstRelease } from '../../../../shared/job/release'
import { claim, closeWarranty, type Given, place, release, shows, sign, warranty } from '../../../shop/acts'
import { floor } from '../../../shop/given'
import { buildDone, liftDone } from '../../../shop/stories'
import { START } from '../../../shop/time'
import { words } from '../../../shop/words'

const delivered = (): Given[] => [
  buildDone(),
  release('to_fitting', { at: 900 }),
  liftDone(),
  release('to_owner', { at: 950 }),
]
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
