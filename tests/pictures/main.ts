/**
 * `npm run pictures`: the README's pictures, taken of the demonstration as it is now, so that they stay true.
 *
 * Starts the built demo on a folder of its own, looks at it with a real browser as its people do, and writes
 * `web/pictures/*.png`.
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Browser, chromium } from 'playwright-core'
import { repoFolder } from '../../server/repo-folder'

interface Shown {
  name: string
  person: string
  path: string
  size: [width: number, height: number]
  light: 'light' | 'dark'
}

const OFFICE: Shown['size'] = [1440, 900]
const TABLET: Shown['size'] = [1180, 820]
const PHONE: Shown['size'] = [390, 844]

const PICTURES: readonly Shown[] = [
  { name: 'board', person: 'hattie', path: '/', size: OFFICE, light: 'light' },
  { name: 'bench', person: 'bram', path: '/jobs/e-101/bench/F5', size: TABLET, light: 'light' },
  { name: 'bench-night', person: 'suvi', path: '/jobs/e-105/bench', size: TABLET, light: 'dark' },
  { name: 'audit', person: 'odile', path: '/jobs/e-101/audit', size: OFFICE, light: 'light' },
  {
    name: 'spec-desk',
    person: 'odile',
    path: '/desk?thread=M10x1.25&class=10.9&lubrication=oil&hole=cast_aluminium&length=45&stack=22&washer=2&depth=25&drilled=30',
    size: OFFICE,
    light: 'light',
  },
  { name: 'settle', person: 'odile', path: '/jobs/e-101/settle/G-F6/1', size: OFFICE, light: 'light' },
  { name: 'engine-phone', person: 'bram', path: '/jobs/e-101', size: PHONE, light: 'dark' },
]

const FLAGS = [
  '--headless=new',
  '--no-sandbox',
  '--disable-gpu',
  '--no-first-run',
  '--disable-background-networking',
]

interface Told {
  address: string
  people: { id: string; pin: string }[]
}

const repo = repoFolder()
const folder = mkdtempSync(join(tmpdir(), 'paintmark-pictures-'))
process.env.PORT = '0'
process.env.DATA_DIR = folder
const told = await demo()
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium',
  args: FLAGS,
})
mkdirSync(join(repo, 'web/pictures'), { recursive: true })
try {
  for (const shown of PICTURES) await take(browser, told, shown)
} finally {
  await browser.close()
  rmSync(folder, { recursive: true, force: true })
}
process.exit(0)

/** The demonstration runs in this process and says where on stdout, as it tells any script. */
async function demo(): Promise<Told> {
  const write = process.stdout.write.bind(process.stdout)
  const line = new Promise<Told>((resolve) => {
    process.stdout.write = ((text: string, ...rest: never[]) => {
      const json = /^\{"address".*\}$/m.exec(String(text))
      if (json) resolve(JSON.parse(json[0]) as Told)
      return write(text, ...rest)
    }) as typeof process.stdout.write
  })
  await import('../../seed/main')
  return line
}

async function take(browser: Browser, { address, people }: Told, shown: Shown): Promise<void> {
  const { name, person, path, size, light } = shown
  const [width, height] = size
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: light,
    baseURL: address,
  })
  const pin = people.find(({ id }) => id === person)?.pin
  const answer = await context.request.post('/api/sign-in', { data: { personId: person, pin } })
  if (!answer.ok()) throw new Error(`${person} was not let in: ${answer.status()}.`)
  const page = await context.newPage()
  await page.goto(path)
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  await page.waitForLoadState('networkidle')
  await page.evaluate(() => document.fonts.ready.then(() => undefined))
  await page.screenshot({ path: join(repo, 'web/pictures', `${name}.png`) })
  process.stderr.write(`web/pictures/${name}.png: ${person} at ${path}\n`)
  await context.close()
}
