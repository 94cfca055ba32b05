/** [EV13] A backup that is not what was written is named, whatever of it was changed. */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { takeBackup } from '../../../server/backups/take'
import { checkBackup } from '../../../server/proof/backup-check'
import { sha256Hex } from '../../../server/store'
import { NOON } from '../rig'
import { changeByte, check, fillShop, makeFolders, withSql } from './shop'

const folders = makeFolders()
let backup = ''
beforeAll(async () => {
  const dataFolder = folders.fresh()
  await fillShop(dataFolder)
  const parts = { dataFolder, into: folders.fresh(), kind: 'by_hand', program: '0', now: NOON } as const
  backup = (await takeBackup(parts)).folder
})
afterAll(() => folders.remove())

const filesIn = (folder: string) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
const named = async (folder: string) => (await checkBackup(folder)).faults.map(({ sentence }) => sentence)

test('[EV13] a sound one has no fault, and nothing in it is written or made', async () => {
  const before = filesIn(backup).map((file) => [file, sha256Hex(readFileSync(file))])
  expect(await checkBackup(backup)).toEqual({ faults: [], notes: [] })
  const report = await check(backup)
  expect(report).toMatchObject({
    faults: [],
    notes: [expect.stringContaining('PINs were not compared: the pepper they are sealed with is not here.')],
  })
  expect(report.marked?.entries).toBe(report.events)
  expect(filesIn(backup).map((file) => [file, sha256Hex(readFileSync(file))])).toEqual(before)
})

test('[EV13] any byte of any of its files', async () => {
  const folder = folders.fresh(backup)
  const files = filesIn(folder)
  expect(files.map((file) => relative(folder, file))).toEqual(
    expect.arrayContaining(['manifest.json', 'marks/kept.jsonl', 'paintmark.db']),
  )
  await fc.assert(
    fc.asyncProperty(fc.constantFrom(...files), fc.nat(), async (file, at) => {
      const back = changeByte(file, at % readFileSync(file).length, (byte) => byte ^ 1)
      // A manifest that cannot be read is refused with a sentence.
      const found = await named(folder).catch((error: Error) => [error.message])
      back()
      expect([file, found.length]).not.toEqual([file, 0])
      for (const sentence of found) expect(sentence).toMatch(/(?:another|that version)\b.*\.$/)
    }),
    { numRuns: 60, seed: 12 },
  )
  expect(await named(folder)).toEqual([])
})

test('[EV13] every byte of its manifest', async () => {
  const folder = folders.fresh(backup)
  const file = join(folder, 'manifest.json')
  const bytes = readFileSync(file)
  for (let at = 0; at < bytes.length; at += 7) {
    const back = changeByte(file, at, (byte) => byte ^ 1)
    const found = await named(folder).catch((error: Error) => [error.message])
    expect([at, found.length > 0]).toEqual([at, true])
    back()
  }
})

test('[EV13] a file taken out, put in, or the database made anew beside its manifest', async () => {
  const out = folders.fresh(backup)
  const photo = filesIn(out).find((file) => file.includes('photos')) as string
  rmSync(photo)
  expect(await named(out)).toEqual([expect.stringMatching(/^photos\/.* is missing from the backup\./)])
  const more = folders.fresh(backup)
  writeFileSync(join(more, 'extra'), '')
  expect(await named(more)).toEqual([
    expect.stringMatching(/^extra lies in the backup, which does not name it\./),
  ])
  const other = folders.fresh(backup)
  withSql(other, (client) => client.exec('delete from answer where rowid = 1'))
  expect(await named(other)).toEqual([
    expect.stringMatching(/^paintmark\.db is not what the backup was made with\./),
    expect.stringMatching(/^manifest\.json does not fit the database beside it \(counts\)\./),
  ])
})

test('[EV13] what is no backup is refused', async () => {
  await expect(checkBackup(folders.fresh())).rejects.toThrow(/is no backup: there is no manifest\.json in it/)
})
