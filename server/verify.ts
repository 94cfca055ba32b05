/**
 * `npm run verify`: the data folder, or one backup, for all that is damaged, missing or false. Reads only. Ends with 1 when
 * anything is wrong. `--json` prints the report for a program.
 */
import { existsSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { counted } from '../shared/words'
import { format } from './format'
import { makeLetGo } from './let-go'
import { checkBackup } from './proof/backup-check'
import { checkFolder } from './proof/check'
import type { FaultKind } from './proof/report'
import { repoFolder } from './repo-folder'
import { run } from './run'
import { databaseIn, Refused, readSettings } from './settings'

const TELL_EVERY_MS = 5000

/** What stands before each fault. */
const HEADS: Record<FaultKind, string> = {
  torn: 'TORN',
  cut: 'CUT',
  missing: 'MISSING',
  page: 'DAMAGED',
  chain: 'BROKEN',
  altered: 'ALTERED',
  view: 'VIEW',
  answer: 'ANSWER',
  photo: 'PHOTO',
  pin: 'PIN',
  marks: 'MARKS',
  backup: 'BACKUP',
  empty: 'EMPTY',
}

const line = (head: string, text: string) => process.stdout.write(`${head.padEnd(8)}${text}\n`)

await run(async () => {
  const args = process.argv.slice(2)
  const json = args.includes('--json')
  const [named, ...more] = args.filter((arg) => arg !== '--json')
  if (more.length > 0 || named?.startsWith('-'))
    throw new Refused('Name nothing, to verify the data folder, or one backup: npm run verify -- FOLDER.')
  const folder = named === undefined ? dataFolder() : resolve(named)
  const backup = named === undefined ? undefined : await checkBackup(folder)
  const file = databaseIn(folder)
  if (!backup && !existsSync(file))
    throw new Refused(
      `There is no log at ${file} to verify. Name its folder with DATA_DIR, or start the shop first.`,
    )
  let toldAt = performance.now()
  const report = await checkFolder({
    folder,
    letGo: makeLetGo(),
    told(done, all) {
      if (performance.now() - toldAt < TELL_EVERY_MS) return
      toldAt = performance.now()
      process.stderr.write(`${Math.floor((100 * done) / Math.max(all, 1))} % read.\n`)
    },
  })
  report.faults.unshift(...(backup?.faults ?? []))
  report.notes.unshift(...(backup?.notes ?? []))
  const { streams, events, faults, notes, releases, marked } = report
  process.exitCode = faults.length === 0 ? 0 : 1
  if (json) return void process.stdout.write(`${JSON.stringify(report)}\n`)
  for (const { stream, events: count } of streams)
    line('ok', `${stream}: ${counted(count, 'entry', 'entries')}`)
  for (const { number, version, head } of releases)
    line('release', `${number}: entries 1 to ${version}, head ${head}: compare it with the printed record`)
  if (marked)
    line(
      'marked',
      `${counted(marked.entries, 'entry', 'entries')} by ${format.dateAndTime(marked.at)}, with the key ${marked.key}: compare it with the one a backup names`,
    )
  for (const sentence of notes) line('note', sentence)
  for (const { kind, sentence } of faults) line(HEADS[kind], sentence)
  const counts = `${counted(streams.length, 'stream')}, ${counted(events, 'entry', 'entries')}`
  if (faults.length === 0) process.stdout.write(`OK: ${counts}, every chain holds.\n`)
  else if (streams.length > 0)
    process.stdout.write(
      `DAMAGED: ${counted(faults.length, 'fault')}; the chains of ${counts} hold; see above.\n`,
    )
})

function dataFolder(): string {
  return readSettings(process.env, { port: 0, dataFolder: join(repoFolder(), 'data', 'shop') }).dataFolder
}
