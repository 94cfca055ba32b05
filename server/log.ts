/** The log for people who keep the server: JSON on stderr. Never a PIN, a cookie or a token [PE1]. */
import { destination, type Logger, pino } from 'pino'

const SECRET = [
  'pin',
  'cookie',
  'authorization',
  'secret',
  'pepper',
  'token',
  'grantId',
  'sealed',
  'set-cookie',
]

export function makeLog(level: string): Logger {
  const paths = SECRET.flatMap((name) => {
    const key = name.includes('-') ? `["${name}"]` : name
    return name.includes('-') ? [key, `*${key}`, `*.*${key}`] : [key, `*.${key}`, `*.*.${key}`]
  })
  return pino(
    { level, base: null, redact: { paths, censor: '(kept out)' } },
    destination({ dest: 2, sync: true }),
  )
}
