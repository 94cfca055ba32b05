/**
 * Checks a data folder, or a backup, for what is damaged, missing, or whole in itself and false: the log against its chains
 * and its marks, and everything beside it against the log. It writes nothing, and holds one engine at a time in memory.
 *
 * What it cannot know: what was entered falsely through the front door; whatever happened since the last mark, a second at
 * most while the server ran; and what somebody did who had the database, the marks and their key in hand, and made all
 * three anew. Against that stand marks in backups elsewhere, and check numbers on printed records.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import Client from 'better-sqlite3'
import { hasLeft } from '../../shared/shop/left'
import type { Shop } from '../../shared/shop/types'
import { counted, listed } from '../../shared/words'
import { emptyFold, foldOn, type JobStream, upcast } from '../desk/streams'
import { VIEWS, VIEWS_EDITION } from '../desk/views-of'
import { format } from '../format'
import { marksFolderIn, publicKeyIn, readBook } from '../marks'
import { PINS_SEAL } from '../people/seal'
import { databaseIn } from '../settings'
import { ChainBroken, DatabaseRefused, OPEN_SINCE, type Recorded, verifyLog } from '../store'
import { checkPhotos, checkPins, type NamedPhoto, photosOfJob, photosOfPlan } from './beside-check'
import { checkLog, nameOf } from './log-check'
import { openReadOnly, type ReadOnly } from './open-read-only'
import { makeReader, type Reader } from './reader'
import { type Fault, RESTORE, type Report } from './report'
import { checkStrayViews, checkViews, makeAnswersCheck } from './rows-check'

/** Nobody reads a thousand lines, and a table that is gone would make as many. */
const OF_A_KIND_MOST = 20

export interface CheckParts {
  /** With the database, `marks` and `photos` in it. */
  folder: string
  /** So many more of `all` are done. Lets others run. */
  told?: (done: number, all: number) => void
  letGo?: (events: number) => void
}

export async function checkFolder({
  folder,
  told = () => {},
  letGo = () => {},
}: CheckParts): Promise<Report> {
  const report: Report = { streams: [], events: 0, faults: [], notes: [], releases: [] }
  const counts = new Map<Fault['kind'], number>()
  const add = (...faults: Fault[]) => {
    for (const fault of faults) {
      const count = (counts.get(fault.kind) ?? 0) + 1
      counts.set(fault.kind, count)
      if (count <= OF_A_KIND_MOST) report.faults.push(fault)
    }
  }
  // Before the log is looked at: while the server writes, the log is never behind its marks.
  const book = readBook(marksFolderIn(folder))
  add(
    ...book.faults.map(({ file, line, problem }) =>
      markFault(`Line ${line} of marks/${file} does not hold: ${problem}`),
    ),
  )
  const file = databaseIn(folder)
  let open: ReadOnly | undefined
  try {
    open = openReadOnly(file)
    await checkOpened(makeReader(open.client, PINS_SEAL), open.lacksLog)
  } catch (error) {
    if (!isOfFile(error)) throw error
    add(pageFault(`The database ${file} cannot be read (${error.message})`))
  } finally {
    open?.close()
  }
  for (const [kind, count] of counts)
    if (count > OF_A_KIND_MOST)
      report.faults.push({
        kind,
        sentence: `There are ${count - OF_A_KIND_MOST} more faults like these; what to do about them is the same.`,
      })
  return report

  /** Runs one part of the check; a page of the file that cannot be read ends that part with a sentence. */
  async function part<T>(what: string, work: () => T | Promise<T>): Promise<T | undefined> {
    try {
      return await work()
    } catch (error) {
      if (!isOfFile(error)) throw error
      add(pageFault(`The database file is damaged where ${what} (${error.message})`))
      return undefined
    }
  }

  async function checkOpened(reader: Reader, lacksLog: boolean) {
    const openSince = await part('it says whether it was closed', () => reader.state(OPEN_SINCE))
    const isTorn = openSince !== undefined && lacksLog
    const lastSeq = (await part('the log ends', () => reader.lastSeq())) ?? 0
    // Each entry is passed twice: in the order of the log, and in its stream.
    const all = 2 * lastSeq
    let done = 0
    const passed = async (entries: number) => {
      done += entries
      told(done, all)
      letGo(entries)
      await new Promise((resolve) => setImmediate(resolve))
    }

    await part('SQLite checks it', () => {
      const found = reader.integrity()
      if (found.length > 0)
        add(pageFault(`The database file is damaged (${found.join('; ').replaceAll('\n', ' ')})`))
    })
    const log = await part('the log is read in its order', () => checkLog(reader, book, passed))
    const cut = log?.faults.find(({ kind }) => kind === 'cut')
    if (isTorn) add(tornFault(Number(openSince), cut))
    add(...(log?.faults ?? []).filter((fault) => !isTorn || fault.kind !== 'cut'))
    if (book.torn.length > 0)
      (openSince === undefined ? add : note)(
        markFault(`The last line of ${listed(book.torn.map((name) => `marks/${name}`))} is cut short`),
      )

    const streams = await part('streams are read', () => checkStreams(reader, passed))
    if (log?.altered && !log.altered.streams.some((stream) => streams?.broken.has(stream)))
      add(log.altered.fault)
    if (streams) {
      const { answers, jobs, broken, named, shop } = streams
      await part('answers are kept', () => add(...answers.rest(broken.size === 0, book.marks)))
      await part('board and readings are kept', () => add(...checkStrayViews(reader, jobs)))
      const photos = await checkPhotos(join(folder, 'photos'), named, () => passed(0))
      add(...photos.faults)
      await part('PINs are kept', () => checkPinRows(reader, shop))
      if (report.streams.length === 0 && broken.size === 0 && lastSeq === 0) add(emptyFault(photos.photos))
    }
    checkKey()
    if (book.marks.length === 0 && report.events > 0)
      report.notes.push(
        'No marks are here, so entries that were cut off the end, or written anew with check numbers that fit, cannot be told. The next start of the server begins them.',
      )
    if (log?.newest) {
      const { at, entries, by } = log.newest
      report.marked = { at, entries: entries.count, key: by }
    }
  }

  function note(fault: Fault) {
    report.notes.push(fault.sentence)
  }

  async function checkStreams(reader: Reader, passed: (entries: number) => Promise<void>) {
    const answers = makeAnswersCheck(reader)
    const named = new Map<string, NamedPhoto>()
    const jobs = new Set<string>()
    const broken = new Set<string>()
    let shop: Shop | undefined
    const addPhotos = (photos: NamedPhoto[]) => {
      for (const photo of photos) named.set(photo.sha256, photo)
    }
    const heads = reader.heads()
    const isOwnEdition = reader.state(VIEWS) === VIEWS_EDITION
    if (!isOwnEdition && heads.length > 0)
      report.notes.push(
        'Board and readings were made by another version of Paintmark and were not compared; the next start makes them again.',
      )
    for (const { stream } of heads) {
      if (stream.startsWith('job:')) jobs.add(stream.slice('job:'.length))
      const {
        events,
        releases,
        broken: faults,
      } = await verifyLog(
        {
          streams: async () => heads.filter((head) => head.stream === stream),
          read: (name) => readStream(reader, name),
        },
        (_, recorded) => sound(stream, recorded),
      )
      report.events += events
      report.releases.push(...releases)
      for (const fault of faults) {
        broken.add(stream)
        add({ kind: 'chain', ...aboutJob(reader, stream), sentence: fault.message })
      }
      await passed(events)
    }

    function sound(stream: string, recorded: Recorded[]) {
      report.streams.push({ stream, events: recorded.length })
      try {
        if (stream === 'shop') {
          const events = recorded.map((row) => upcast(row).event)
          shop = foldOn('shop', emptyFold('shop'), events) as Shop
          for (const editions of Object.values(shop.plans))
            for (const plan of Object.values(editions))
              addPhotos(photosOfPlan(plan, `the plan ${plan.title}`))
        } else {
          const { job, faults } = checkViews(reader, stream as JobStream, recorded)
          if (isOwnEdition) add(...faults)
          addPhotos(photosOfJob(job))
        }
        add(...answers.of(recorded))
      } catch (error) {
        const about = aboutJob(reader, stream)
        const name = about.number ?? stream
        if (error instanceof Client.SqliteError)
          add({
            ...pageFault(`The database file is damaged where rows of ${name} are kept (${error.message})`),
            ...about,
          })
        else
          add({
            kind: 'chain',
            ...about,
            sentence: `The entries of ${name} hang together, but this program cannot read them (${error instanceof Error ? error.message : error}). If a newer version of Paintmark wrote them, verify with that one; else somebody wrote them by hand: restore the last good backup.`,
          })
      }
    }
    return { answers, jobs, broken, named, shop }
  }

  /** A page that cannot be read is damage of that stream. */
  async function readStream(reader: Reader, stream: string): Promise<Recorded[]> {
    try {
      return await reader.read(stream)
    } catch (error) {
      if (!(error instanceof Client.SqliteError)) throw error
      throw new ChainBroken(stream, 1, `the database file cannot be read there (${error.message})`)
    }
  }

  function aboutJob(reader: Reader, stream: string): { jobId?: string; number?: string } {
    if (stream === 'shop') return {}
    try {
      return { jobId: stream.slice('job:'.length), number: nameOf(reader, stream) }
    } catch {
      return { jobId: stream.slice('job:'.length) }
    }
  }

  function checkPinRows(reader: Reader, shop: Shop | undefined) {
    const pins = reader.pins()
    if (!pins) return note({ kind: 'pin', sentence: 'PINs are not sealed yet; the next start does that.' })
    const pepper = join(folder, 'pepper')
    // While the server writes, a PIN may have been set since the shop's entries were read.
    const isOfNow = reader
      .heads()
      .some(({ stream, version }) => stream === 'shop' && version === shop?.version)
    const { faults, notes } = checkPins(
      pins,
      existsSync(pepper) ? readFileSync(pepper) : undefined,
      (id) => shop?.people[id]?.name ?? id,
      book.keys.length > 0,
      (id) => (isOfNow && shop ? (hasLeft(shop, id) ? 'none' : shop.pins?.[id]?.at) : undefined),
    )
    add(...faults)
    report.notes.push(...notes)
  }

  function checkKey() {
    const newest = book.keys.at(-1)?.key
    try {
      const own = publicKeyIn(folder)
      if (own !== undefined && newest !== undefined && own !== newest)
        add(markFault('The key in marks.key is not the one that the marks were signed with'))
      if (own !== undefined && newest === undefined && report.events > 0)
        add(markFault('The marks are gone: their key is here, and marks/kept.jsonl is not'))
    } catch (error) {
      add({ kind: 'marks', sentence: (error as Error).message })
    }
    const [, ...anew] = book.keys
    for (const { at } of anew)
      report.notes.push(
        `The key of the marks was made anew on ${format.dateAndTime(at)}, as after a restore without its secrets. If nobody restored then, ask who had the folder in hand.`,
      )
  }

  function emptyFault(photos: number): Fault {
    const counts = Math.max(0, ...book.marks.map(({ entries }) => entries.count))
    const here = (name: string) =>
      existsSync(join(folder, name)) && (name !== 'tls' || readdirSync(join(folder, name)).length > 0)
    const left = [
      ...(counts > 0 ? [`marks that count ${counted(counts, 'entry', 'entries')}`] : []),
      ...(photos > 0 ? [counted(photos, 'photo')] : []),
    ]
    if (left.length > 0)
      return {
        kind: 'empty',
        sentence: `The log has no entry, but a shop was here: beside it lie ${listed(left)}. The database was emptied, or is another one. ${RESTORE}`,
      }
    const made = ['pepper', 'tls'].filter(here)
    return {
      kind: 'empty',
      sentence:
        made.length > 0
          ? `The log has no entry; beside it lies what a server makes at its first start (${listed(made)}). If a shop was open here, its log is gone: restore the last good backup. If none was, there is nothing to verify yet.`
          : 'The log has no entry: no shop was opened here, so there is nothing to verify. If one was, this is not its database.',
    }
  }
}

const markFault = (what: string): Fault => ({
  kind: 'marks',
  sentence: `${what}. Compare the folder "marks" with the one in a backup; the log itself may be sound.`,
})

const pageFault = (what: string): Fault => ({ kind: 'page', sentence: `${what}. ${RESTORE}` })

function tornFault(openSince: number, cut: Fault | undefined): Fault {
  const gone = cut ? ` ${cut.sentence.slice(0, -RESTORE.length - 1)}` : ''
  return {
    kind: 'torn',
    sentence: `This is a torn copy: the database was open since ${format.dateAndTime(openSince)}, and its write-ahead log, the file paintmark.db-wal with the newest entries, was not copied with it.${gone} Put that file beside it, or make a copy with "npm run backup".`,
  }
}

/** What says that the file itself cannot be read. */
const isOfFile = (error: unknown): error is Error =>
  error instanceof Client.SqliteError || error instanceof DatabaseRefused
