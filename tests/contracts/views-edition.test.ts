/** [EV11] Rows that are made from the log are the same for the same log, or their edition is another one. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import type { JobStream } from '../../server/desk/streams'
import { VIEWS_EDITION, viewsOf } from '../../server/desk/views-of'
import { openShop } from '../../server/open-shop'
import { checkFolder } from '../../server/proof/check'
import { canonical, sha256Hex } from '../../server/store'
import { silent } from '../shop/silent'
import { unpack } from './old-shops/pack'

const folder = mkdtempSync(join(tmpdir(), 'paintmark-edition-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('[EV11] an older build’s rows are made again at the first start, and are those of this edition', async () => {
  unpack(join(import.meta.dirname, '../fixtures/dbcb07a'), folder)
  const before = await checkFolder({ folder })
  expect(before.faults).toEqual([])
  expect(before.notes.join()).toContain('made by another version of Paintmark and were not compared')
  const shop = await openShop({ dataFolder: folder, now: () => Date.UTC(2030, 1, 1), log: silent })
  const prints: string[] = []
  for (const { stream } of (await shop.store.streams()).filter((head) => head.stream !== 'shop')) {
    const { summaries, readings } = viewsOf(stream as JobStream, await shop.store.read(stream))
    prints.push(sha256Hex(canonical({ summaries, readings })))
  }
  await shop.close()
  // Where these are others, raise VIEWS_EDITION, so that the rows of every shop are made again, then write them here.
  expect([VIEWS_EDITION, sha256Hex(prints.join())]).toEqual([
    '1',
    'ffb4a0a7941263b5c3a9bb10f850d167b6e95ed88a6f2eca21f079584a03c044',
  ])
  expect(await checkFolder({ folder })).toMatchObject({
    faults: [],
    notes: [],
    marked: { entries: before.events },
  })
})
