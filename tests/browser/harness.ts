/**
 * A real Chromium against the built server: devices as people use them, and what every page must keep to.
 *
 * A device is a browser context of its own: its own cookie, its own storage. Whatever its console says against a
 * page fails the test. Pages are read by role and accessible name, as a person does.
 */
import { existsSync, mkdirSync } from 'node:fs'
import { join } from 'node:path'
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect } from 'vitest'
import { type Server, startServer } from '../process/program'

export type { Server } from '../process/program'

const FLAGS = [
  '--headless=new',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/** The browser itself says so when the plug is pulled. */
export const UNPLUGGED = /ERR_INTERNET_DISCONNECTED|WebSocket connection .* failed/

/** One thing said to another device shows there within this, or the test fails. Not a figure: a bound. */
export const SOON_MS = 15_000

function chromiumPath(): string {
  const executablePath = process.env.CHROMIUM_PATH ?? '/usr/bin/chromium'
  if (!existsSync(executablePath))
    throw new Error(`There is no browser at ${executablePath}. Name a Chromium in CHROMIUM_PATH.`)
  return executablePath
}

export const SIZES = {
  phone: { width: 390, height: 844 },
  tablet: { width: 1180, height: 820 },
  office: { width: 1440, height: 900 },
} as const
export type Size = keyof typeof SIZES

export interface Device {
  page: Page
  context: BrowserContext
  /** Goes to an address of this shop and waits until the page stands. */
  goTo(path: string): Promise<void>
  /** Console lines the test brings about itself: a wrong PIN, a pulled plug. Any other is a failure. */
  allow(pattern: RegExp): void
  /** What the console said against the pages so far, without what is allowed. */
  complaints(): string[]
  /** A picture of the page as it stands, when SHOTS names a folder. */
  shot(name: string): Promise<void>
}

export interface DeviceAsked {
  size?: Size
  light?: 'day' | 'night'
  /** Whether the browser keeps the pages for when the server is silent, as one does that trusts the shop's certificate. */
  keepsPages?: boolean
  /** A folder in which a browser of its own keeps all it has: closed, it can be opened again on it. */
  profile?: string
}

async function openDevice(
  browser: Browser,
  server: Server,
  { size = 'tablet', light = 'day', keepsPages = false, profile }: DeviceAsked = {},
): Promise<Device> {
  const options: BrowserContextOptions = {
    baseURL: server.address,
    viewport: SIZES[size],
    hasTouch: size !== 'office',
    colorScheme: light === 'day' ? 'light' : 'dark',
    reducedMotion: 'reduce',
    locale: 'en-GB',
    serviceWorkers: keepsPages ? 'allow' : 'block',
  }
  const context = profile
    ? await chromium.launchPersistentContext(profile, {
        ...options,
        executablePath: chromiumPath(),
        args: FLAGS,
      })
    : await browser.newContext(options)
  context.setDefaultTimeout(SOON_MS)
  const page = await context.newPage()
  const said: string[] = []
  const allowed: RegExp[] = [/Service Worker registration blocked by Playwright/]
  page.on('pageerror', (error) => said.push(`page error: ${error.stack ?? error.message}`))
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning')
      said.push(`console ${message.type()}: ${message.text()} (${message.location().url})`)
  })
  const complaints = () => said.filter((line) => !allowed.some((pattern) => pattern.test(line)))
  return {
    page,
    context,
    async goTo(path) {
      await page.goto(path)
      await stands(page)
    },
    allow: (pattern) => void allowed.push(pattern),
    complaints,
    async shot(name) {
      const folder = process.env.SHOTS
      if (!folder) return
      mkdirSync(folder, { recursive: true })
      await page.screenshot({ path: join(folder, `${name}.png`) })
    },
  }
}

/** One server and one browser for the tests of a file, and the devices of each test. */
export interface Shop {
  readonly server: Server
  /** A device nobody is signed in on. It is closed after the test, which fails for what its console said. */
  device(asked?: DeviceAsked): Promise<Device>
  /** Signed in without the page: for tests that are about something else. */
  deviceOf(personId: string, asked?: DeviceAsked): Promise<Device>
}

/** To be called once at the top of a file. */
export function useShop(what: 'demo' | 'main' = 'demo'): Shop {
  let server: Server
  let browser: Browser
  const open: Device[] = []
  beforeAll(async () => {
    ;[server, browser] = await Promise.all([
      startServer(what),
      chromium.launch({ executablePath: chromiumPath(), args: FLAGS }),
    ])
  })
  afterAll(async () => {
    await browser?.close()
    await server?.stop()
  })
  afterEach(async ({ task }) => {
    const devices = open.splice(0)
    if (task.result?.state === 'fail')
      for (const [index, { page, shot }] of devices.entries()) {
        await shot(`failed-${task.id}-${index}`)
        const main = page.getByRole('main')
        const words = await main.ariaSnapshot({ timeout: 1000 }).catch(() => 'nothing')
        process.stderr.write(`Device ${index} stood at ${page.url()} and said:\n${words.slice(0, 1200)}\n`)
      }
    for (const device of devices) await device.context.close()
    expect(devices.flatMap((device) => device.complaints())).toEqual([])
  })
  const shop: Shop = {
    get server() {
      return server
    },
    async device(asked) {
      const device = await openDevice(browser, server, asked)
      open.push(device)
      return device
    },
    async deviceOf(personId, asked) {
      const device = await shop.device(asked)
      await signInQuietly(device, server, personId)
      return device
    },
  }
  return shop
}

/** Headings and fonts are there, and nothing says that it is still being fetched. */
export async function stands(page: Page): Promise<void> {
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  await page.evaluate(() => document.fonts.ready.then(() => undefined))
}

export function pinOf(server: Server, personId: string): string {
  const person = server.people.find(({ id }) => id === personId)
  if (!person) throw new Error(`The demonstration has nobody called ${personId}.`)
  return person.pin
}

export function nameOf(server: Server, personId: string): string {
  const person = server.people.find(({ id }) => id === personId)
  if (!person) throw new Error(`The demonstration has nobody called ${personId}.`)
  return person.name
}

/** By the tiles and the pad of the sign-in page, then on to where the test begins. */
export async function signIn(device: Device, server: Server, personId: string, to = '/'): Promise<void> {
  await device.goTo(to === '/' ? '/sign-in' : `/sign-in?to=${encodeURIComponent(to)}`)
  await touchIn(device.page, server, personId)
  await device.page.getByRole('button', { name: 'is signed in. Change person' }).waitFor()
  await stands(device.page)
}

/** A name on the tiles, then their PIN on the pad; on the page or in a dialog. */
export async function touchIn(page: Page, server: Server, personId: string): Promise<void> {
  const name = nameOf(server, personId)
  await page.getByRole('button', { name }).last().click()
  const pad = page.getByRole('region', { name: `PIN of ${name}` })
  await pressDigits(pad, pinOf(server, personId))
  await pad.getByRole('button', { name: 'Sign in' }).click()
}

interface Within {
  getByRole: Page['getByRole']
}

export async function pressDigits(within: Within, digits: string): Promise<void> {
  for (const digit of digits)
    await within.getByRole('button', { name: digit === '.' ? 'point' : digit, exact: true }).click()
}

export async function signInQuietly(device: Device, server: Server, personId: string): Promise<void> {
  const answer = await device.context.request.post('/api/sign-in', {
    data: { personId, pin: pinOf(server, personId) },
    headers: { origin: server.address },
  })
  expect(answer.status()).toBe(201)
}
