/**
 * The room that keeps the log. Come in here: the port and its promises are in `port.ts`, the hash chain in
 * `chain.ts`; everything else in this folder is how they are kept.
 */
export { canonical, plainJson } from './canonical'
export { sha256Hex } from './chain'
export {
  AnsweredTwice,
  ChainBroken,
  DatabaseRefused,
  JobNumberTaken,
  NotCanonical,
  RowDamaged,
  StoreClosed,
} from './errors'
export { memoryEventStore } from './memory'
export {
  closeDatabase,
  needsMigration,
  OPEN_SINCE,
  type OpenDatabase,
  openDatabase,
  type ShopDatabase,
  schemaHashes,
  setState,
  stateOf,
} from './open'
export type * from './port'
export { sqliteEventStore } from './sqlite'
export { type Verified, verifyLog } from './verify'
