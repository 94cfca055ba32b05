/** `npm run keep-shop -- NAME`: puts `tests/fixtures/NAME` there, and this build's wire beside the older ones, for every later build. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { brotliCompressSync } from 'node:zlib'
import { repoFolder } from '../../../server/repo-folder'
import { run, say } from '../../../server/run'
import { Refused } from '../../../server/settings'
import { publishedSchema } from '../../../shared/schema'
import { keepShop } from './keep'

await run(async () => {
  const name = process.argv[2]
  if (!name || !/^[\w-]+$/.test(name)) throw new Refused('Say what to call it: npm run keep-shop -- 1a2b3c4.')
  await keepShop(join(repoFolder(), 'tests', 'fixtures', name))
  const { protocol, job, shop } = publishedSchema()
  writeFileSync(
    join(repoFolder(), 'tests', 'contracts', 'old-protocols', `${protocol}.json.br`),
    brotliCompressSync(JSON.stringify({ protocol, job: job.commands, shop: shop.commands })),
  )
  say(`tests/fixtures/${name} holds a shop as this build writes it.`)
})
