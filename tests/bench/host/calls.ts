/** What the load process may ask of the server process. Everything in and out is plain data. */

/** A job to be made: how far along the whole build it is, in commands, and more readings on top. */
export interface JobSpec {
  commands: number
  retakes?: number
}

export interface OursOpened {
  id: number
  dataFolder: string
  origin: string
  /** Signed in as the doer. */
  cookie: string
  jobs: string[]
}

export interface HostCalls {
  /** The shop as shipped: desk, people, HTTP and sockets, on a fresh data folder. */
  openOurs(dataFolder: string, jobs: JobSpec[]): Promise<OursOpened>
  /** More jobs, with the plan and nothing done. */
  addJobs(id: number, jobs: JobSpec[]): Promise<string[]>
  closeOurs(id: number): Promise<void>
  /** Writes the rows that the readings of these jobs made once more, one transaction each; the milliseconds. */
  bareLoop(id: number, jobs: string[], file: string): Promise<{ ms: number; commands: number }>
  /** Bare socket.io on a bare SQLite file: commit, answer, broadcast the same bytes. */
  openBare(id: number, job: string, file: string): Promise<{ origin: string }>
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
