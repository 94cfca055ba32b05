/**
 * What the environment may set: `PORT`, `HOST`, `DATA_DIR`, `BEHIND_PROXY`, `LOG_LEVEL`, `METRICS_TOKEN`, and for backups `BACKUP_DIR`
 * and `BACKUP_PASSPHRASE`, or `BACKUP_PASSPHRASE_FILE`. What is wrong is refused with a sentence; nothing is guessed.
 */
import { readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { isLoopback } from './addresses'

export interface Settings {
  port: number
  host: string
  dataFolder: string
  /** A proxy in front speaks TLS; this server then speaks plain HTTP on purpose. */
  behindProxy: boolean
  /** Beyond loopback without such a proxy. */
  tls: boolean
  logLevel: LogLevel
  /** Whoever sends it may read `/metrics` from another machine. */
  metricsToken?: string
  /** Where a backup is made every hour. */
  backupFolder?: string
  /** What its secrets are encrypted under. */
  passphrase?: string
}

const LOG_LEVELS = ['silent', 'error', 'warn', 'info', 'debug'] as const
type LogLevel = (typeof LOG_LEVELS)[number]

export class Refused extends Error {
  override name = 'Refused'
}

type Environment = Record<string, string | undefined>

export function readSettings(
  env: Environment,
  defaults: { port: number; dataFolder: string; logLevel?: LogLevel },
): Settings {
  const host = env.HOST?.trim() || '127.0.0.1'
  const behindProxy = flag(env, 'BEHIND_PROXY')
  if (!/^[A-Za-z0-9.:_-]+$/.test(host))
    throw new Refused(`HOST is "${host}", which is not an address. Give one, like 127.0.0.1 or 0.0.0.0.`)
  const backupFolder = env.BACKUP_DIR?.trim()
  const passphrase = passphraseIn(env)
  const metricsToken = metricsTokenIn(env)
  return {
    port: port(env, defaults.port),
    host,
    dataFolder: env.DATA_DIR?.trim() ? resolve(env.DATA_DIR.trim()) : defaults.dataFolder,
    behindProxy,
    tls: !isLoopback(host) && !behindProxy,
    logLevel: logLevel(env, defaults.logLevel ?? 'info'),
    ...(backupFolder ? { backupFolder: resolve(backupFolder) } : {}),
    ...(passphrase === undefined ? {} : { passphrase }),
    ...(metricsToken === undefined ? {} : { metricsToken }),
  }
}

export const databaseIn = (dataFolder: string): string => join(dataFolder, 'paintmark.db')

function port(env: Environment, fallback: number): number {
  const value = env.PORT?.trim()
  if (!value) return fallback
  const number = Number(value)
  if (/^\d+$/.test(value) && number <= 65_535) return number
  throw new Refused(`PORT is "${value}". Give a whole number from 1 to 65535, or 0 for any free one.`)
}

function flag(env: Environment, name: string): boolean {
  const value = env[name]?.trim() ?? ''
  if (value === '' || value === '0') return false
  if (value === '1') return true
  throw new Refused(`${name} is "${value}". Give 1 for yes, or leave it out.`)
}

/** Shorter ones are guessed. */
const SHORTEST_TOKEN = 16

function metricsTokenIn(env: Environment): string | undefined {
  const token = env.METRICS_TOKEN?.trim()
  if (!token) return undefined
  if (token.length >= SHORTEST_TOKEN && !/\s/.test(token)) return token
  throw new Refused(
    `METRICS_TOKEN has a space in it or is shorter than ${SHORTEST_TOKEN} characters. Give a longer one without spaces.`,
  )
}

/** A file is safer than the environment, which other programs of this account can read. */
function passphraseIn(env: Environment): string | undefined {
  const file = env.BACKUP_PASSPHRASE_FILE?.trim()
  if (!file) return env.BACKUP_PASSPHRASE || undefined
  let passphrase: string | undefined
  try {
    passphrase = readFileSync(file, 'utf8').split(/\r?\n/)[0]
  } catch {
    throw new Refused(
      `BACKUP_PASSPHRASE_FILE is "${file}", which cannot be read. Name a file whose first line is the passphrase.`,
    )
  }
  if (passphrase) return passphrase
  throw new Refused(
    `The first line of ${file}, which BACKUP_PASSPHRASE_FILE names, is empty. Put the passphrase there.`,
  )
}

function logLevel(env: Environment, fallback: LogLevel): LogLevel {
  const value = env.LOG_LEVEL?.trim() || fallback
  if ((LOG_LEVELS as readonly string[]).includes(value)) return value as LogLevel
  throw new Refused(`LOG_LEVEL is "${value}". Give one of ${LOG_LEVELS.join(', ')}.`)
}
