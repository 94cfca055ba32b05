/** The shop is restored from a backup: the tablet sends again what the log has lost since, and shows the log as it is. */
import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import type { Job } from '../../shared/job/types'
import { inRepo, type Program, runProgram, startProgram } from '../process/program'
import { adoptPlan, claim, confirmed, enterScale, openJob, tap, toBench } from './hands'
import { type Device, SOON_MS, signIn, useShop } from './harness'
import { openSmallShop, SMALL_PLAN } from './small-shop'

const shop = useShop('main')
const NUTS = 'Head nuts'

test('one nut, a backup, two nuts more, a restore: the three are there, once, without a touch', async () => {
  const { server } = shop
  const lead = await shop.device({ size: 'office' })
  await openSmallShop(lead, server)
  await lead.goTo('/')
  const engine = { model: 'Harrow R2', serial: 'HR2-7', owner: 'Gathlow Farm Services', agreed: 'Head on' }
  const jobId = await openJob(lead.page, { number: 'N-1', ...engine })
  await adoptPlan(lead.page, 'N-1', SMALL_PLAN.title)
  const doer = await shop.device()
  for (const device of [lead, doer])
    device.allow(/ERR_CONNECTION_REFUSED|WebSocket connection .* failed|ERR_INTERNET_DISCONNECTED/)
  await signIn(doer, server, 'tom')
  await toBench(doer, jobId, 'A1')
  const { page } = doer
  await claim(page)
  await enterScale(page, '30')
  await tap(page, NUTS, 1)
  await confirmed(page, NUTS, 1)

  const folder = mkdtempSync(join(tmpdir(), 'paintmark-restored-'))
  let again: Program | undefined
  try {
    const backups = join(folder, 'backups')
    mkdirSync(backups)
    const run = (name: string, where: string, dataFolder: string) =>
      runProgram([inRepo('dist', 'server', `${name}.js`), where], {
        DATA_DIR: dataFolder,
        BACKUP_PASSPHRASE: 'four plain words here',
      })
    const backup = await run('backup', backups, server.folder)
    expect(backup.code, backup.stderr).toBe(0)
    for (const n of [3, 2]) {
      await tap(page, NUTS, n)
      await confirmed(page, NUTS, n)
    }
    expect(await nutsOf(lead, jobId)).toEqual(['1 by tom', '3 by tom', '2 by tom'])
    await page.evaluate(() => Object.assign(window, { sameDocument: true }))

    await server.program.stop()
    const [made = ''] = readdirSync(backups)
    const restored = join(folder, 'data')
    const restore = await run('restore', join(backups, made), restored)
    expect(restore.code, restore.stderr).toBe(0)
    again = startProgram([inRepo('dist', 'server', 'main.js')], {
      PORT: new URL(server.address).port,
      DATA_DIR: restored,
      LOG_LEVEL: 'warn',
    })
    await again.says(/^Paintmark runs at/m)
    await expect
      .poll(() => nutsOf(lead, jobId), { timeout: SOON_MS })
      .toEqual(['1 by tom', '3 by tom', '2 by tom'])
    await page.getByText('live', { exact: true }).waitFor()
    await confirmed(page, NUTS, 2)
    await expect.poll(() => page.evaluate(() => 'sameDocument' in window), { timeout: SOON_MS }).toBe(false)
    await page.close()
    await lead.page.close()
  } finally {
    await again?.stop()
    rmSync(folder, { recursive: true, force: true })
  }
}, 180_000)

async function nutsOf({ context }: Device, jobId: string): Promise<string[]> {
  const answer = await context.request.get(`/api/jobs/${jobId}`).catch(() => undefined)
  if (!answer?.ok()) return []
  const { readings } = (await answer.json()) as Job
  return Object.values(readings)
    .flat()
    .map(({ position, by }) => `${position} by ${by}`)
}
