/** The server is switched off: what a tablet has seen opens there again, is worked on, and the server has it when it is back. */
import { expect, test } from 'vitest'
import type { Job } from '../../shared/job/types'
import { inRepo, startProgram } from '../process/program'
import { adoptPlan, claim, enterScale, headSays, openJob, rowOf, tap, toBench } from './hands'
import { SOON_MS, signIn, stands, useShop } from './harness'
import { openSmallShop, SMALL_PLAN } from './small-shop'

const shop = useShop('main')
const ENGINE = {
  number: 'N-1',
  model: 'Harrow R2',
  serial: 'HR2-7',
  owner: 'Gathlow Farm Services',
  agreed: 'Head on',
}

test('the bench opens without the server, takes three nuts, and hands them over when it is back', async () => {
  const { server } = shop
  const lead = await shop.device({ size: 'office' })
  await openSmallShop(lead, server)
  await lead.goTo('/')
  const jobId = await openJob(lead.page, ENGINE)
  await adoptPlan(lead.page, ENGINE.number, SMALL_PLAN.title)
  const doer = await shop.device({ keepsPages: true })
  for (const device of [lead, doer])
    device.allow(/ERR_CONNECTION_REFUSED|WebSocket connection .* failed|ERR_INTERNET_DISCONNECTED/)
  await signIn(doer, server, 'tom')
  const { page } = doer
  const keeps = (rooms: string[]) =>
    expect.poll(() => page.evaluate(seenRooms), { timeout: SOON_MS }).toEqual(expect.arrayContaining(rooms))
  // What was seen is put by a moment after it came.
  await keeps(['board'])
  await toBench(doer, jobId, 'A1')
  await claim(page)
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
  await keeps(['shop', `job:${jobId}`])

  await server.program.stop()
  await page.reload()
  await stands(page)
  await page.getByText('no signal', { exact: true }).waitFor()
  await enterScale(page, '30')
  for (const n of [1, 3, 2]) await tap(page, 'Head nuts', n)
  // Loaded once more, without a server: all of it is still there.
  await page.reload()
  await stands(page)
  await page.getByRole('button', { name: 'no signal: 4 entries kept on this device' }).waitFor()
  await headSays(page, 'Head nuts', 2, /waiting to be sent/)
  await page.getByText(/What others did is shown as of /).waitFor()
  await doer.shot('no-server')

  // An engine this tablet never showed is not waited for without a word.
  await page.goto('/jobs/never-seen')
  await page.getByText('this engine is not kept on this device').waitFor()
  await doer.shot('no-server-unseen')
  await page.getByRole('link', { name: 'To the board' }).click()
  await rowOf(page, ENGINE.number).waitFor()
  await page.getByText(/^As of /).waitFor()
  await doer.shot('no-server-board')
  for (const title of ['Engine', 'Audit']) {
    await page.goto(`/jobs/${jobId}/${title === 'Audit' ? 'audit' : ''}`)
    await page.getByText(/^As of /).waitFor()
    await doer.shot(`no-server-${title.toLowerCase()}`)
  }
  await page.goto(`/jobs/${jobId}/bench/A1`)

  const { port } = new URL(server.address)
  const again = startProgram([inRepo('dist', 'server', 'main.js')], {
    PORT: port,
    DATA_DIR: server.folder,
    LOG_LEVEL: 'warn',
  })
  try {
    await again.says(/^Paintmark runs at/m)
    await page.getByText('live', { exact: true }).waitFor()
    await page.getByText(/shown as of /).waitFor({ state: 'detached' })
    await expect
      .poll(
        async () => {
          const answer = await lead.context.request.get(`/api/jobs/${jobId}`)
          const { readings } = (await answer.json()) as Job
          return Object.values(readings)
            .flat()
            .map(({ position, by }) => `${position} by ${by}`)
        },
        { timeout: SOON_MS },
      )
      .toEqual(['1 by tom', '3 by tom', '2 by tom'])
  } finally {
    await again.stop()
  }
}, 120_000)

async function seenRooms(): Promise<string[]> {
  const named = (await indexedDB.databases()).find(({ name }) => name?.startsWith('paintmark-seen-'))?.name
  if (!named) return []
  const database = await new Promise<IDBDatabase>((resolve, reject) => {
    const asked = indexedDB.open(named)
    asked.onsuccess = () => resolve(asked.result)
    asked.onerror = () => reject(asked.error)
  })
  try {
    return await new Promise<string[]>((resolve) => {
      const asked = database.transaction('rooms').objectStore('rooms').getAllKeys()
      asked.onsuccess = () => resolve(asked.result.map(String))
    })
  } finally {
    database.close()
  }
}
