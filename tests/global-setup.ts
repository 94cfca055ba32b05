/**
 * Before tests that need the built server and pages: stops with one sentence when a build is missing,
 * rather than with a page of time-outs. It cannot tell a stale build; `npm test` builds first.
 */
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

export default function buildsAreThere() {
  for (const file of ['dist/server/main.js', 'dist/web/index.html', 'dist/sim/main.js']) {
    if (existsSync(fileURLToPath(new URL(`../${file}`, import.meta.url)))) continue
    throw new Error(`${file} is missing, and these tests need it. Run them with: npm test -- <path>`)
  }
}
