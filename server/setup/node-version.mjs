/**
 * Whether this Node is new enough. Runs before anything else, on any Node that knows ES modules.
 */
export const lowest = { major: 20, minor: 19 }

/**
 * The sentence to stop with, or undefined when this Node will do.
 * @param {string} version as in `process.versions.node`
 */
export function nodeTooOld(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number)
  if (major > lowest.major || (major === lowest.major && minor >= lowest.minor)) return undefined
  return (
    `This is Node ${version}; Paintmark needs ${lowest.major}.${lowest.minor} or newer. ` +
    'Install a newer Node (a current long-term line is better still) and run the command again.'
  )
}
