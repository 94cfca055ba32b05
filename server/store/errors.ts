/**
 * What a store throws: each names what is so, which one, and what to do next. None is a rule of the
 * shop; those are refusals and live in `shared/`.
 */

/** Stored rows are not what was written. The log is evidence, so nothing carries on over it. */
export class ChainBroken extends Error {
  override name = 'ChainBroken'
  constructor(
    readonly stream: string,
    readonly version: number,
    readonly problem: string,
  ) {
    super(
      `Stream "${stream}" is damaged at version ${version}: ${problem}. ` +
        'Stop the server, keep a copy of the data folder, run "npm run verify" to see all that is damaged, ' +
        'and restore the database from the last good backup.',
    )
  }
}

/** A kept row outside the log cannot be read. */
export class RowDamaged extends Error {
  override name = 'RowDamaged'
  constructor(table: 'answer' | 'summary' | 'reading', key: string) {
    super(
      `The ${table} row "${key}" does not hold what was written. ` +
        (table === 'answer'
          ? 'Restore the database from the last good backup.'
          : 'Run "npm run rebuild" to make the tables again from the log.'),
    )
  }
}

export class AnsweredTwice extends Error {
  override name = 'AnsweredTwice'
  constructor(readonly commandId: string) {
    super(
      `Command ${commandId} is answered already; nothing of this batch was written. ` +
        'Look up the kept answer before deciding a command.',
    )
  }
}

export class JobNumberTaken extends Error {
  override name = 'JobNumberTaken'
  constructor(
    readonly number: string,
    readonly jobId: string,
  ) {
    super(
      `Job number "${number}" belongs to another job than ${jobId}; nothing was written. ` +
        'Refuse the number before committing.',
    )
  }
}

export class NotCanonical extends Error {
  override name = 'NotCanonical'
  constructor(
    readonly path: string,
    what: string,
  ) {
    super(
      `JSON cannot hold ${what} (at ${path || 'the top'}); nothing was written. Check the value where it comes in.`,
    )
  }
}

export class StoreClosed extends Error {
  override name = 'StoreClosed'
  constructor() {
    super('The event store is closed. Open it again before reading or writing.')
  }
}

/** The file is not one this version can work with; it was left as it is. */
export class DatabaseRefused extends Error {
  override name = 'DatabaseRefused'
}
