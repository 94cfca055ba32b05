/** `npm run keep-shop -- NAME`: puts `tests/fixtures/NAME` there, for every later build to read. */
import { join } from 'node:path'
import { repoFolder } from '../../../server/repo-folder'
import { run, say } from '../../../server/run'
import { Refused } from '../../../server/settings'
import { keepShop } from './keep'

await run(async () => {
  const name = process.argv[2]
  if (!name || !/^[\w-]+$/.test(name)) throw new Refused('Say what to call it: npm run keep-shop -- 1a2b3c4.')
  await keepShop(join(repoFolder(), 'tests', 'fixtures', name))
  say(`tests/fixtures/${name} holds a shop as this build writes it.`)
})
