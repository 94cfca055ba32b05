/** What the parts of the engine and audit pages need of the job in front of them. */
import { createContext, useContext } from 'solid-js'
import type { PlannedJob } from '../../../shared/job/context'
import type { Job, JobCommand } from '../../../shared/job/types'
import type { Refusal } from '../../../shared/log'
import type { Shop } from '../../../shared/shop/types'
import type { Words } from '../../../shared/words'

export interface Desk {
  job(): Job
  shop(): Shop
  words: Words
  /** The id of who is signed in here. */
  me(): string | undefined
  now(): number
  send(command: JobCommand): void
  /** The rule that would refuse it, or nothing. */
  may(command: JobCommand): Refusal | undefined
}

export const DeskContext = createContext<Desk>()

export function useDesk(): Desk {
  const desk = useContext(DeskContext)
  if (!desk) throw new Error('useDesk is for parts inside a DeskContext.Provider')
  return desk
}

/** The job once it has a plan; parts below the plan are only drawn then. */
export const planned = (desk: Desk): PlannedJob => desk.job() as PlannedJob
