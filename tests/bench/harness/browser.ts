/** The Chromium of the browser tests, and what it says of its own work. */
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { type Browser, type BrowserContext, type CDPSession, chromium } from 'playwright-core'
import { repoFolder } from '../../../server/repo-folder'
import type { Ending } from './ending'
import type { At } from './sockets'

export async function openBrowser(ending: Ending): Promise<Browser> {
  const running = await chromium.launch({ executablePath: await path(), args: ['--no-sandbox'] })
  ending.add(() => running.close())
  return running
}

/** Found as the browser tests find it; not bundled, because it is no part of the build. */
async function path(): Promise<string> {
  const file = pathToFileURL(join(repoFolder(), 'server', 'setup', 'browser.mjs')).href
  const { ensureBrowser } = (await import(/* @vite-ignore */ file)) as { ensureBrowser(): Promise<string> }
  return ensureBrowser()
}

/** A device of its own, signed in where a cookie is given. */
export async function deviceAt(
  browser: Browser,
  { origin, cookie }: At,
  viewport: { width: number; height: number },
): Promise<BrowserContext> {
  const context = await browser.newContext({ viewport })
  const [name = '', ...value] = cookie.split('=')
  if (cookie) await context.addCookies([{ name, value: value.join('='), url: origin }])
  return context
}

/** After `Performance.enable`: durations in seconds since the page began, and numbers of things. */
export async function counters(devtools: CDPSession): Promise<Map<string, number>> {
  const { metrics } = await devtools.send('Performance.getMetrics')
  return new Map(metrics.map(({ name, value }) => [name, value]))
}
