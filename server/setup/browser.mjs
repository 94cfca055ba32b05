/**
 * A Chromium for the browser tests: the one CHROMIUM_PATH names, else Debian's shell of it without windows, which does
 * the same pages with two thirds of the work and is installed when we are root, else any of this machine. Nothing is
 * downloaded from anywhere else.
 */
import { existsSync } from 'node:fs'
import { onPath, works } from './child.mjs'
import { aptInstall, mayInstall } from './debian.mjs'
import { Stop, say } from './say.mjs'

/** @returns {Promise<string>} the program's full path */
export async function ensureBrowser() {
  const named = process.env.CHROMIUM_PATH
  if (named) {
    if (starts(named)) return named
    throw new Stop(
      `CHROMIUM_PATH names ${named}, which does not start. Name a Chromium that does, or unset it.`,
    )
  }
  if (find([SHELL])) return SHELL
  if (mayInstall()) {
    say('The browser tests run faster in a Chromium without windows, and this machine has none.')
    await aptInstall(['chromium-headless-shell'])
  }
  const found = find([SHELL, '/usr/bin/chromium', onPath('chromium', 'chromium-browser', 'google-chrome')])
  if (found) return found
  throw new Stop(
    'There is no Chromium. Install the Debian package chromium-headless-shell, or name one in CHROMIUM_PATH.',
  )
}

const SHELL = '/usr/bin/chromium-headless-shell'

/** @param {(string | undefined)[]} places */
const find = (places) => places.find((file) => file !== undefined && existsSync(file) && starts(file))

/** @param {string} file */
const starts = (file) => works(file, ['--version'])
