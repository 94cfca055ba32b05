/** A small shop on disk in which a bit of everything happened, closed in order; and ways to tamper with a copy of it. */
import { createHash } from 'node:crypto'
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Client from 'better-sqlite3'
import { v7 } from 'uuid'
import { bodyHash, type Reply } from '../../../server/desk'
import { type OpenShop, openShop } from '../../../server/open-shop'
import { checkFolder } from '../../../server/proof/check'
import type { Report } from '../../../server/proof/report'
import { databaseIn } from '../../../server/settings'
import type { Plan } from '../../../shared/plan/types'
import { joint as anyJoint, plan, positions, step } from '../../shop/plan'
import { silent } from '../../shop/silent'
import { openShop as shopCommands, stepOne } from '../../shop/yard'
import { NOON } from '../rig'

/** One step of three bolts, after which the engine may go. */
const LEAVES: Plan = plan({
  id: 'leaves',
  stages: [{ id: 'A', title: 'All of it', releases: 'to_fitting' }],
  steps: [
    step('S1', {
      joints: [
        anyJoint('J1', { positions: positions(3), passes: [{ kind: 'torque', torqueNm: 20, wrench: 'W1' }] }),
      ],
    }),
  ],
})

export const PICTURE = Buffer.concat([
  Buffer.from([0xff, 0xd8, 0xff, 0xdb, 0, 4, 1, 2, 0xff, 0xda, 0, 2, 7, 7, 7, 0xff, 0xd9]),
])
const SHA256 = createHash('sha256').update(PICTURE).digest('hex')
export const PHOTO = join('photos', SHA256.slice(0, 2), SHA256)

export interface Sender {
  send(stream: 'shop' | `job:${string}`, command: object, by?: string): Promise<Reply>
  clock: { now: number }
}

export async function openAt(folder: string, clock = { now: NOON }): Promise<OpenShop & Sender> {
  const shop = await openShop({ dataFolder: folder, now: () => clock.now, log: silent })
  return {
    ...shop,
    clock,
    async send(stream, command, by = 'ana') {
      const sent = { ...command, commandId: v7() } as never
      clock.now += 1000
      return shop.desk.submit({
        stream,
        command: sent,
        bodyHash: bodyHash(stream, sent),
        asker: { person: by, through: 'sign_in' },
        receivedAt: clock.now,
      })
    },
  }
}

async function must(reply: Promise<Reply>) {
  const answer = await reply
  if (!answer.ok) throw new Error(answer.sentence)
}

const job = (number: string) => [
  { type: 'OpenJob', number, engine: { model: 'Small', serial: number }, owner: 'Somebody', agreed: 'All' },
  { type: 'AdoptPlan', planId: 'leaves', edition: 1 },
]

/** Two engines, one of them released, a photo, an answer that was a refusal, two PINs; marks at the release and at the end. */
export async function fillShop(folder: string): Promise<void> {
  const shop = await openAt(folder)
  // As a real one, which the built server opens too.
  const real = shopCommands.map((command) =>
    command.type === 'OpenShop' ? { ...command, invented: undefined } : command,
  )
  for (const command of [...real, { type: 'AddPlan', plan: LEAVES }]) await must(shop.send('shop', command))
  for (const command of [...job('E-1'), ...stepOne]) await must(shop.send('job:j1', command))
  await shop.photos.put(SHA256, PICTURE)
  const photo = {
    id: 'p1',
    sha256: SHA256,
    bytes: PICTURE.length,
    mime: 'image/jpeg',
    widthPx: 1,
    heightPx: 1,
  }
  await must(shop.send('job:j1', { type: 'AddPhoto', photo }))
  await must(shop.send('job:j1', { type: 'ConfirmPhoto', photoId: 'p1' }))
  await must(shop.send('job:j1', { type: 'Release', kind: 'to_fitting' }))
  for (const command of [...job('E-2'), ...stepOne]) await must(shop.send('job:j2', command))
  await shop.send('job:j2', { type: 'Release', kind: 'to_owner' })
  await must(shop.send('job:j2', { type: 'AddNote', text: 'the last word' }))
  await shop.people.setPin('ana', '4711')
  await shop.people.setPin('bo', '7063')
  await shop.close()
}

export function makeFolders() {
  const folders: string[] = []
  return {
    fresh(from?: string): string {
      const folder = mkdtempSync(join(tmpdir(), 'paintmark-evidence-'))
      folders.push(folder)
      if (from !== undefined) cpSync(from, folder, { recursive: true })
      return folder
    },
    remove() {
      for (const folder of folders) rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** As somebody with the file and SQL can, while no server runs. */
export function withSql<T>(folder: string, work: (client: Client.Database) => T): T {
  const client = new Client(databaseIn(folder))
  try {
    client.pragma('synchronous = OFF')
    client.pragma('journal_mode = MEMORY')
    return work(client)
  } finally {
    client.close()
  }
}

/** One byte of a file, made another one; gives the way back. */
export function changeByte(file: string, at: number, to: (byte: number) => number): () => void {
  const before = readFileSync(file)
  const after = Buffer.from(before)
  after[at] = to(after[at] ?? 0)
  writeFileSync(file, after)
  return () => writeFileSync(file, before)
}

export const check = (folder: string): Promise<Report> => checkFolder({ folder })
export const kindsIn = ({ faults }: Report): string[] => [...new Set(faults.map(({ kind }) => kind))].sort()
