/** A kill of every kind, as `npm run sim -- --kill` plays them by the hundred. */
import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { PHASES } from '../kill/phases'
import { faultsOf, pause } from '../kill/program'
import { drawFrom } from '../kill/random'
import { runKills } from '../kill/run'
import { openShop } from '../kill/shop'

test('[DK2][BX5][BX8][BX11] killed at work, at a first run, a backup, a migration and a restore: nothing acknowledged is lost, nothing is twice', async () => {
  const wrong: string[] = []
  const { phases, acknowledged } = await runKills({
    kills: PHASES.length,
    seed: 5,
    phases: PHASES,
    failed: (phase, _, lines, kept) => wrong.push(`${phase}, kept in ${kept}:`, ...lines),
  })
  expect(wrong).toEqual([])
  expect(PHASES.map((phase) => phases[phase].kills)).toEqual(PHASES.map(() => 1))
  expect(acknowledged).toBeGreaterThan(20)
}, 120_000)

test('a log set back behind what was acknowledged is noticed: lost, and answered otherwise', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-kill-'))
  const dataFolder = join(folder, 'shop')
  const draw = drawFrom(3)
  const shop = await openShop(dataFolder)
  try {
    expect(await shop.check(draw)).toEqual([])
    await shop.kill()
    const before = join(folder, 'before')
    cpSync(dataFolder, before, { recursive: true, filter: (from) => !from.endsWith('.sock') })
    await shop.start()
    const storm = shop.storm(draw)
    const acknowledged = shop.acknowledged()
    await expect.poll(shop.acknowledged, { timeout: 20_000 }).toBeGreaterThan(acknowledged + 10)
    // As long as it takes for the log to be marked.
    await pause(1500)
    await shop.kill()
    await storm.end()
    for (const name of readdirSync(dataFolder).filter((each) => each.startsWith('paintmark.db')))
      rmSync(join(dataFolder, name))
    for (const name of readdirSync(before).filter((each) => each.startsWith('paintmark.db')))
      cpSync(join(before, name), join(dataFolder, name))
    await shop.start()
    const wrong = await shop.check(draw)
    expect(wrong).toContainEqual(expect.stringMatching(/^Lost: job:[abc] \d+, acknowledged for /))
    expect((await faultsOf(dataFolder)).join()).toMatch(/verify ended with 1/)
  } finally {
    await shop.close()
    rmSync(folder, { recursive: true, force: true })
  }
}, 120_000)
