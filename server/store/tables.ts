/**
 * Every table of the shop's database. After a change here:
 * `npx drizzle-kit generate --config drizzle/drizzle.config.ts --name what-changed`.
 *
 * `event` and `stream_head` are the log; `answer` is what each command was told. `summary` and `reading`
 * are views: made from the log, and made again by `npm run rebuild`. `credential`, `device` and `sign_in`
 * are private to `server/people/` and never leave the server. `state` says a few things of the file itself.
 */
import { sql } from 'drizzle-orm'
import { index, integer, primaryKey, real, sqliteTable, text, unique } from 'drizzle-orm/sqlite-core'

export const event = sqliteTable(
  'event',
  {
    /** Given by the store and part of the body, so that a row cannot change its place unseen. */
    seq: integer('seq').primaryKey(),
    stream: text('stream').notNull(),
    version: integer('version').notNull(),
    body: text('body').notNull(),
    hash: text('hash').notNull(),
  },
  (t) => [unique('event_stream_version').on(t.stream, t.version)],
)

export const streamHead = sqliteTable('stream_head', {
  stream: text('stream').primaryKey(),
  version: integer('version').notNull(),
  hash: text('hash').notNull(),
})

export const answer = sqliteTable(
  'answer',
  {
    commandId: text('command_id').primaryKey(),
    personId: text('person_id').notNull(),
    bodyHash: text('body_hash').notNull(),
    answeredAt: integer('answered_at').notNull(),
    answer: text('answer').notNull(),
    deviceId: text('device_id'),
    entryNumber: integer('entry_number'),
  },
  (t) => [index('answer_counted').on(t.deviceId, t.entryNumber).where(sql`${t.entryNumber} is not null`)],
)

export const summary = sqliteTable(
  'summary',
  {
    jobId: text('job_id').primaryKey(),
    number: text('number').notNull().unique('summary_number'),
    version: integer('version').notNull(),
    json: text('summary').notNull(),
    finishedAt: integer('finished_at'),
  },
  (t) => [index('summary_finished').on(t.finishedAt)],
)

export const reading = sqliteTable(
  'reading',
  {
    jobId: text('job_id').notNull(),
    readingId: text('reading_id').notNull(),
    jointId: text('joint_id').notNull(),
    position: integer('position').notNull(),
    pass: integer('pass').notNull(),
    how: text('how').notNull(),
    wrenchId: text('wrench_id'),
    torqueNm: real('torque_nm'),
    angleDeg: real('angle_deg'),
    flags: text('flags').notNull(),
    byPerson: text('by_person').notNull(),
    doneAt: integer('done_at').notNull(),
    standing: integer('standing', { mode: 'boolean' }).notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.jobId, t.readingId] }),
    index('reading_wrench_done').on(t.wrenchId, t.doneAt),
    index('reading_done').on(t.doneAt),
  ],
)

/** The PIN's argon2id hash; the pepper is a file, not in here. */
export const credential = sqliteTable('credential', {
  personId: text('person_id').primaryKey(),
  pinHash: text('pin_hash').notNull(),
  setAt: integer('set_at').notNull(),
  /** Keyed with the pepper, over the columns before it; absent in a row from before there were any. */
  mac: text('mac'),
})

/** By name, what holds for the whole file: since when it is open (`open.ts`), the seal of all PINs (`server/people/`). */
export const state = sqliteTable('state', {
  name: text('name').primaryKey(),
  value: text('value').notNull(),
})

export const device = sqliteTable('device', {
  id: text('id').primaryKey(),
  secretHash: text('secret_hash').notNull(),
  firstSeenAt: integer('first_seen_at').notNull(),
  lastSeenAt: integer('last_seen_at').notNull(),
})

export const signIn = sqliteTable(
  'sign_in',
  {
    /** UUIDv7: a command names it. */
    id: text('id').primaryKey(),
    deviceId: text('device_id')
      .notNull()
      .references(() => device.id),
    personId: text('person_id').notNull(),
    openedAt: integer('opened_at').notNull(),
    closedAt: integer('closed_at'),
  },
  (t) => [index('sign_in_device').on(t.deviceId)],
)
