/**
 * Keeps a shop as this build writes it, for every later build to read: `npm run keep-shop -- <commit>` puts a folder
 * of that name under `tests/fixtures`, with what each stream amounts to.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { migrations } from '../../../server/open-shop'
import { databaseIn } from '../../../server/settings'
import { openDatabase, sqliteEventStore } from '../../../server/store'
import { pack } from './pack'
import { playShop } from './play'
import { AS_IT_IS, printsOf } from './prints'

export async function keepShop(into: string): Promise<void> {
  const dataFolder = mkdtempSync(join(tmpdir(), 'paintmark-kept-'))
  try {
    await playShop(dataFolder)
    const store = sqliteEventStore(
      openDatabase({ file: databaseIn(dataFolder), migrationsFolder: migrations() }),
    )
    const prints = await printsOf(store, AS_IT_IS)
    await store.close()
    rmSync(into, { recursive: true, force: true })
    pack(dataFolder, into)
    writeFileSync(join(into, 'prints.json'), `${JSON.stringify(prints, undefined, 1)}\n`)
  } finally {
    rmSync(dataFolder, { recursive: true, force: true })
  }
}
