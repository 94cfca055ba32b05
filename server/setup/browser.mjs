/**
 * A Chromium for the browser tests: the one CHROMIUM_PATH names, else one of this machine, else one
 * installed from Debian when we are root. Nothing is downloaded from anywhere else.
 */
import { existsSync } from 'node:fs'
import { onPath, works } from './child.mjs'
import { aptInstall } from './debian.mjs'
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
  const executable = find()
  if (executable) return executable
  say('The browser tests need a Chromium, and this machine has none.')
  await aptInstall(['chromium'])
  const installed = find()
  if (installed) return installed
  throw new Stop('There is no Chromium. Install the Debian package chromium, or name one in CHROMIUM_PATH.')
}

function find() {
  const places = ['/usr/bin/chromium', onPath('chromium', 'chromium-browser', 'google-chrome')]
  return places.find((file) => file !== undefined && existsSync(file) && starts(file))
}

/** @param {string} file */
const starts = (file) => works(file, ['--version'])
