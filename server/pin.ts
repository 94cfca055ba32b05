/**
 * `npm run pin -- NAME`: sets somebody's PIN at the server's machine, for the owner who forgot theirs. Asked on the
 * terminal, so that it stands in no list of commands; ends the person's sign-ins, wherever they are.
 */
import { existsSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { Writable } from 'node:stream'
import { isTooEasyPin, PIN_FORM, PIN_TOO_EASY, PIN_WORDS } from '../shared/pin'
import { answersOf } from './box/answers'
import { refuseDemonstration } from './demonstration/folder'
import { type Answers, type Question, refuseHeld } from './holding'
import { askOrTake } from './holding/ask-or-take'
import { makeLog } from './log'
import { openMigrated, openShop } from './open-shop'
import { forgetPins } from './people'
import { refuseRemnants } from './remnants'
import { repoFolder } from './repo-folder'
import { run, say } from './run'
import { databaseIn, Refused, readSettings } from './settings'
import { closeDatabase } from './store'

const ALL_ANEW = '--all-anew'

await run(async () => {
  const { dataFolder, logLevel } = readSettings(process.env, {
    port: 0,
    dataFolder: join(repoFolder(), 'data', 'shop'),
    logLevel: 'warn',
  })
  const words = process.argv.slice(2)
  const name = words.filter((word) => word !== ALL_ANEW).join(' ')
  if (!name) throw new Refused('Say whose PIN: npm run pin -- NAME, by name or initials.')
  refuseDemonstration(dataFolder)
  refuseRemnants(dataFolder)
  if (!existsSync(databaseIn(dataFolder)))
    throw new Refused(`There is no shop in ${dataFolder}. Name its folder with DATA_DIR.`)
  const anew = words.includes(ALL_ANEW)
  if (anew) refuseHeld(dataFolder, 'Stop it first: every PIN is about to be forgotten.')
  const who: Question = { do: 'person', name }
  const found = await askOrTake(dataFolder, 'pin', who)
  if ('answer' in found) {
    const { id } = found.answer as { id: string }
    const pin = await askTwice(found.answer.name as string)
    const set = await askOrTake(dataFolder, 'pin', { do: 'pin', id, pin })
    if ('held' in set) throw new Refused('The server was stopped meanwhile, and no PIN was set. Try again.')
    return done(found.answer.name as string)
  }
  if (anew) await forgetAll(dataFolder)
  const log = makeLog(logLevel)
  const shop = await openShop({ dataFolder, now: Date.now, log })
  const answers: Answers = answersOf(shop, log, undefined)
  const ask = (question: Question) =>
    answers[question.do]?.(question, say) as Promise<{ id: string; name: string }>
  const person = await ask(who)
  const pin = await askTwice(person.name)
  await ask({ do: 'pin', id: person.id, pin })
  await shop.close()
  found.held.release()
  done(person.name)
})

function done(name: string) {
  process.stdout.write(
    `The PIN of ${name} is set, and ${name} is signed out everywhere. Tell them who set it.\n`,
  )
}

/** The pepper is gone or of no use: with it every PIN. */
async function forgetAll(dataFolder: string) {
  const db = await openMigrated(dataFolder, Date.now)
  forgetPins(db)
  closeDatabase(db)
  rmSync(join(dataFolder, 'pepper'), { force: true })
  say('Every PIN is forgotten. Set each anew, on the Shop page or with this command.')
}

async function askTwice(name: string): Promise<string> {
  const silent = new Writable({ write: (_chunk, _encoding, then) => then() })
  const isTerminal = process.stdin.isTTY === true
  const lines = createInterface({ input: process.stdin, output: silent, terminal: isTerminal })
  const answers = lines[Symbol.asyncIterator]()
  const ask = async (question: string): Promise<string> => {
    process.stderr.write(question)
    const { value, done: ended } = await answers.next()
    process.stderr.write('\n')
    if (ended) throw new Refused('No PIN was entered, and none was set.')
    return String(value).trim()
  }
  try {
    const pin = await ask(`New PIN of ${name} (${PIN_WORDS}; it is not shown): `)
    if (!PIN_FORM.test(pin)) throw new Refused(`A PIN is ${PIN_WORDS}. No PIN was set; try again.`)
    if (isTooEasyPin(pin)) throw new Refused(`${PIN_TOO_EASY} No PIN was set; try again.`)
    if ((await ask('The same PIN again: ')) !== pin)
      throw new Refused('The two PINs differ. No PIN was set; try again.')
    return pin
  } finally {
    lines.close()
  }
}
