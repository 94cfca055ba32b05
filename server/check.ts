/** A message from outside against its schema: the value, or a fault that names the path. */
import type { z } from 'zod'
import type { Fault } from '../shared/protocol'

export type Checked<T> = { value: T } | { fault: Fault }

export function check<T>(schema: z.ZodType<T>, message: unknown): Checked<T> {
  const result = schema.safeParse(message)
  if (result.success) return { value: result.data }
  const [issue] = result.error.issues
  const keys = issue?.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : []
  const path = pathOf([...(issue?.path ?? []), ...keys])
  const unknownType = issue?.code === 'invalid_union' && path === '/type'
  return badMessage(
    path,
    unknownType ? 'no such command is known' : lowerFirst(issue?.message ?? 'not understood'),
  )
}

export const badMessage = (path: string, problem: string): { fault: Fault } => ({
  fault: {
    ok: false,
    code: 'bad_message',
    path,
    sentence: `The message is wrong at ${path === '' ? 'its top' : path}: ${problem}. GET /api/schema says what is expected.`,
  },
})

/** As a JSON Pointer (RFC 6901). */
const pathOf = (keys: readonly PropertyKey[]): string =>
  keys.map((key) => `/${String(key).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('')

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1)
