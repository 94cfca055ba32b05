/** What the office reads of a warranty case: in the engine's head, among the releases, as a way out. */
import { expect, test } from 'vitest'
import { releaseLines, releaseViews, waysOut } from '../../../web/pages/audit/release-view'
import { releaseStates } from '../../../web/pages/engine/office-view'
import { closeWarranty, type Given, release, warranty } from '../../shop/acts'
import { floor } from '../../shop/given'
import { buildDone, liftDone } from '../../shop/stories'
import { START } from '../../shop/time'
import { words } from '../../shop/words'

const back = (...happened: Given[]) =>
  floor(
    buildDone(),
    release('to_fitting', { at: 900 }),
    liftDone(),
    release('to_owner', { at: 950 }),
    warranty({ at: 960 }),
    ...happened,
  ).job
const found = closeWarranty({ finding: 'the union was loose', at: 970 })

test('it stands among the reasons with its one way out, and goes with the finding', () => {
  const owner = (...happened: Given[]) =>
    releaseViews(back(...happened), START + 999 * 60_000).find(({ kind }) => kind === 'to_owner')?.against ??
    []
  expect(owner().map(({ code }) => code)).toEqual(['warranty_open'])
  expect(owner().flatMap(waysOut)).toEqual([{ do: 'finding', complaint: 'weeps at the filter' }])
  expect(owner(found)).toEqual([])
})

test('the edition before it tells the complaint and the finding; so does the head', () => {
  expect(releaseLines(back())[0]).not.toHaveProperty('finding')
  expect(releaseLines(back(found))[0]).toMatchObject({
    state: 'after',
    complaint: 'weeps at the filter',
    finding: 'the union was loose',
  })
  expect(releaseStates(back(), words).at(-1)?.text).toMatch(/: weeps at the filter$/)
  expect(releaseStates(back(found), words).at(-1)?.text).toMatch(
    /weeps at the filter\. Found: the union was loose$/,
  )
})
