/** A message from outside against its schema: the value, or a fault that names the path, and the field in the screen's words. */
import type { z } from 'zod'
import { fieldWords } from '../shared/format/field-words'
import type { Fault } from '../shared/protocol'

export type Checked<T> = { value: T } | { fault: Fault }

export function check<T>(schema: z.ZodType<T>, message: unknown): Checked<T> {
  const result = schema.safeParse(message, { reportInput: true })
  if (result.success) return { value: result.data }
  const [issue] = result.error.issues
  const keys = [
    ...(issue?.path ?? []),
    ...(issue?.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : []),
  ]
  const name = fieldWords(keys)
  // A schema may say all of it, with what to do.
  if (issue?.code === 'custom' && issue.message.endsWith('.')) return badMessage(pathOf(keys), issue.message)
  return badMessage(
    pathOf(keys),
    name && issue ? `“${name}” ${problemOf(issue)}. Enter it again.` : NOT_UNDERSTOOD,
  )
}

const NOT_UNDERSTOOD = 'The server did not understand this entry. Reload the page and make it again.'

export const badMessage = (path: string, sentence: string): { fault: Fault } => ({
  fault: { ok: false, code: 'bad_message', path, sentence },
})

/** As a JSON Pointer (RFC 6901). */
const pathOf = (keys: readonly PropertyKey[]): string =>
  keys.map((key) => `/${String(key).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('')

function problemOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      if (issue.input === undefined) return 'is missing'
      if (issue.expected === 'int') return 'must be a whole number'
      return issue.expected === 'number' ? 'must be a number' : 'was not understood'
    case 'too_big':
      if (isNumber(issue.origin))
        return `must be ${issue.inclusive === false ? 'below' : 'at most'} ${issue.maximum}`
      return `is too long: ${issue.maximum} ${issue.origin === 'string' ? 'characters' : 'entries'} at most`
    case 'too_small':
      if (isNumber(issue.origin))
        return `must be ${issue.inclusive === false ? 'above' : 'at least'} ${issue.minimum}`
      return 'is empty'
    case 'custom':
      return issue.message
    case 'unrecognized_keys':
      return 'does not belong here'
    default:
      return 'was not understood'
  }
}

const isNumber = (origin: string): boolean => origin === 'number' || origin === 'int'
