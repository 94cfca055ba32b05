/** The room that writes. Come in here: the promises stand in `desk.ts`, how a turn is decided in `turn.ts`. */
export { bodyHash } from './answers'
export { type After, afterMs } from './clock'
export { type DeskParts, NOT_SAVED, notSaved, openDesk } from './desk'
export type { Budget } from './folds'
export {
  type AnyEvent,
  asStreamName,
  inWords,
  JOB_ID,
  jobStream,
  type StreamName,
  upcast,
} from './streams'
export type { Asker, Desk, Log, Publish, Reply, Submission } from './types'
export { jsonOf } from './views'
export { wordsOf } from './words'
