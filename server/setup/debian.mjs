/**
 * Packages of the machine itself. Installed only when we are root on a machine with apt-get; anyone
 * else gets the names and decides.
 */
import { onPath, run } from './child.mjs'
import { say } from './say.mjs'

let listsAreNew = false

export const mayInstall = () => process.getuid?.() === 0 && onPath('apt-get') !== undefined

/**
 * @param {readonly string[]} packages
 * @returns {Promise<boolean>} whether they are installed now
 */
export async function aptInstall(packages) {
  if (!mayInstall()) return false
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }
  if (!listsAreNew) {
    say('Refreshing the package lists of this machine.')
    listsAreNew = (await run('apt-get', ['update', '-q'], { env })) === 0
  }
  say(`Installing the Debian packages ${packages.join(', ')}.`)
  return (
    (await run('apt-get', ['install', '-y', '-q', '--no-install-recommends', ...packages], { env })) === 0
  )
}
