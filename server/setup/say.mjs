/**
 * What the setup tells people, on stderr: stdout belongs to the command that was asked for.
 *
 * `say` is one plain sentence about what is being done. `Stop` ends a command with a sentence
 * that says what is so and what to do next; no stack is shown for it.
 */

/** @param {string} sentence */
export function say(sentence) {
  process.stderr.write(`${sentence}\n`)
}

export class Stop extends Error {
  /**
   * @param {string} sentence
   * @param {number} [exitCode]
   */
  constructor(sentence, exitCode = 1) {
    super(sentence)
    this.exitCode = exitCode
  }
}
