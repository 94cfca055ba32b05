/**
 * `check` and `test`.
 *
 * `test` ends with the plain line `N passed, N failed`, the last line on stdout. A failing check, a
 * test file that could not be read and a run that broke off all count as failed; no tests at all is a
 * failure too, so the line can never be green by having done nothing.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ensureBrowser } from './browser.mjs'
import { ensureBuilt } from './build.mjs'
import { run } from './child.mjs'
import { ensurePackages } from './install.mjs'
import { inRepo } from './places.mjs'
import { Stop, say } from './say.mjs'

/** @returns {Promise<number>} how many checks failed */
export async function check() {
  const checks = [
    { what: 'format and lint', program: 'biome', args: ['check'] },
    { what: 'types', program: 'tsc', args: ['-p', '.'] },
  ]
  let failed = 0
  for (const { what, program, args } of checks) {
    say(`Checking ${what}.`)
    if ((await run(inRepo('node_modules/.bin', program), args)) === 0) continue
    say(`The check of ${what} failed.`)
    failed += 1
  }
  return failed
}

/**
 * @param {readonly string[]} args paths or options for vitest; none means everything
 * @returns {Promise<number>} the exit code
 */
export async function test(args) {
  let passed = 0
  let failed = 0
  try {
    await ensurePackages()
    const chromium = await browserFor(args)
    failed += await check()
    await ensureBuilt('web', 'server', 'sim')
    const tests = await runVitest(args, chromium)
    passed += tests.passed
    failed += tests.failed
  } catch (cause) {
    failed += 1
    say(cause instanceof Stop ? cause.message : String(cause instanceof Error ? cause.stack : cause))
  }
  process.stdout.write(`${passed} passed, ${failed} failed\n`)
  return failed === 0 ? 0 : 1
}

/**
 * The whole suite needs a browser. A chosen part may not, and a test in it that does will say so.
 * @param {readonly string[]} args
 */
async function browserFor(args) {
  try {
    return await ensureBrowser()
  } catch (cause) {
    if (args.length === 0 || !(cause instanceof Stop)) throw cause
    say(cause.message)
    return undefined
  }
}

/**
 * @param {readonly string[]} args
 * @param {string | undefined} chromium
 */
async function runVitest(args, chromium) {
  say('Running the tests.')
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-tests-'))
  const report = join(folder, 'report.json')
  try {
    const exitCode = await run(
      inRepo('node_modules/.bin/vitest'),
      [
        ...['run', '--config', 'tests/vitest.config.ts'],
        ...['--reporter=default', '--reporter=json', `--outputFile.json=${report}`],
        ...args,
      ],
      { stdout: true, env: { ...process.env, ...(chromium ? { CHROMIUM_PATH: chromium } : {}) } },
    )
    return countTests(readReport(report), exitCode)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** @param {string} file */
function readReport(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'))
  } catch {
    return undefined
  }
}

/**
 * @typedef {{ status: string, assertionResults: { status: string }[] }} FileReport
 * @typedef {{ numPassedTests: number, numFailedTests: number, testResults: FileReport[] }} Report
 */

/**
 * @param {Report | undefined} report vitest's JSON report, if it was written
 * @param {number} exitCode vitest's own
 */
export function countTests(report, exitCode) {
  const passed = report?.numPassedTests ?? 0
  const brokenFiles = (report?.testResults ?? []).filter(
    (file) => file.status === 'failed' && !file.assertionResults.some(({ status }) => status === 'failed'),
  )
  const failed = (report?.numFailedTests ?? 0) + brokenFiles.length
  const endedBadly = exitCode !== 0 || passed + failed === 0
  return { passed, failed: failed === 0 && endedBadly ? 1 : failed }
}
