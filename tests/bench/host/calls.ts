/** What the load process may ask of the server process. Everything in and out is plain data. */

import type { RowsOfOne } from './bare-store'

/** A job to be made: how far along the whole build it is, and more readings on top. */
export interface JobSpec {
  /** At most so many of the build's commands. */
  commands: number
  /** No further once its JSON is as long as this. */
  bytes?: number
  retakes?: number
}

export interface Worked {
  /** In milliseconds, as the next. */
  p50: number
  /** Of the server process, a command. */
  cpuMs: number
}

export interface OursOpened {
  id: number
  dataFolder: string
  origin: string
  /** Signed in as the doer. */
  cookie: string
  /** Of as many devices as there are boards in a figure, signed in as the doer too. */
  devices: string[]
  jobs: string[]
}

export interface YardOpened {
  origin: string
  /** Signed in as whoever holds the step at the bench. */
  cookie: string
  /** On the board. */
  engines: number
  /** Engines that are tightened at, by their ids. */
  working: string[]
  atBench: { job: string; step: string }
  released: { job: string; number: string }
  /** The engine with a plan of five hundred steps. */
  long: string
}

export interface HostCalls {
  /** The shop as shipped: desk, people, HTTP and sockets, on a fresh data folder or one it filled before. */
  openOurs(dataFolder: string, jobs: JobSpec[]): Promise<OursOpened>
  /** More jobs, with the plan and nothing done. */
  addJobs(id: number, jobs: JobSpec[]): Promise<string[]>
  /** Processor time this process has used so far, in milliseconds. */
  cpuMs(): Promise<number>
  /** A reading on each of these jobs in turn, one at a time and without sockets; the first `untimed` count for nothing. */
  workInTurn(id: number, jobs: string[], untimed: number, timed: number): Promise<Worked>
  /** The demonstration's shop with so many engines more. */
  openYard(dataFolder: string, engines: number): Promise<YardOpened>
  /** Readings, in turn on these engines of the yard; fewer where the time is over. Gives how many. */
  tellYard(jobs: string[], count: number, atMostMs: number): Promise<number>
  closeYard(): Promise<void>
  closeOurs(id: number): Promise<void>
  /** Writes the rows that the readings of these jobs made once more, one transaction each; the milliseconds. */
  bareLoop(id: number, jobs: string[], file: string): Promise<{ ms: number; cpuMs: number; commands: number }>
  /** Bare socket.io on a bare SQLite file: commit, answer, broadcast the same bytes. */
  openBare(id: number, job: string, file: string): Promise<{ origin: string }>
  /** What a bare server needs to do the same work. */
  sampleRows(id: number, job: string): Promise<{ rows: RowsOfOne; summary: { version: number } }>
  /** Of the same events as plain JSON. */
  plainEvents(id: number, job: string, after: number): Promise<PlainEvents>
  plainJob(id: number, job: string): Promise<{ version: number; bytes: number }>
}

export interface PlainEvents {
  count: number
  bytes: number
  /** Bytes by field, of the events alone, most first. */
  fields: [name: string, bytes: number][]
}
