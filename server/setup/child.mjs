/**
 * Runs another program and waits for it.
 *
 * Its output goes to stderr unless stdout is asked for. It shares our process group, so a Ctrl-C in
 * the terminal reaches it anyway; a signal sent to us alone is passed on, and we then end as it did.
 */
import { spawn, spawnSync } from 'node:child_process'
import { accessSync, constants } from 'node:fs'
import { constants as osConstants } from 'node:os'
import { delimiter, join } from 'node:path'
import { repo } from './places.mjs'

/**
 * @param {string} program
 * @param {readonly string[]} args
 * @param {{ env?: NodeJS.ProcessEnv, stdout?: boolean }} [options]
 * @returns {Promise<number>} the exit code; 127 when the program could not be started
 */
export function run(program, args, { env = process.env, stdout = false } = {}) {
  return new Promise((resolve) => {
    const child = spawn(program, args, {
      cwd: repo,
      env,
      stdio: ['inherit', stdout ? 'inherit' : process.stderr, 'inherit'],
    })
    /** @type {NodeJS.Signals | undefined} */
    let stopSignal
    /** @param {NodeJS.Signals} signal */
    const passOn = (signal) => {
      stopSignal = signal
      child.kill(signal)
    }
    const signals = /** @type {const} */ (['SIGINT', 'SIGTERM'])
    for (const signal of signals) process.on(signal, passOn)
    /** @param {number} code */
    const end = (code) => {
      for (const signal of signals) process.off(signal, passOn)
      if (stopSignal) process.exit(128 + osConstants.signals[stopSignal])
      resolve(code)
    }
    child.once('error', () => end(127))
    child.once('exit', (code, signal) => end(code ?? 128 + (signal ? osConstants.signals[signal] : 0)))
  })
}

/**
 * The first of these programs that is on PATH, as a full path.
 * @param {...string} names
 */
export function onPath(...names) {
  for (const name of names) {
    for (const folder of (process.env.PATH ?? '').split(delimiter)) {
      const file = join(folder || '.', name)
      try {
        accessSync(file, constants.X_OK)
        return file
      } catch {
        // not here: look in the next folder
      }
    }
  }
  return undefined
}

/**
 * Whether a program starts and ends well within the time given.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {number} [seconds]
 */
export function works(program, args, seconds = 30) {
  const { status } = spawnSync(program, args, { cwd: repo, stdio: 'ignore', timeout: seconds * 1000 })
  return status === 0
}
