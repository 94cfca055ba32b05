/** What the machine that the shop runs on knows of itself: the log's epoch, its backups, its health. */
import { type BackupKeeper, type KeeperParts, makeBackupKeeper } from '../backups/keeper'
import type { Epoch } from './epoch'
import { type ChainState, type Health, makeHealth } from './health'

export interface Box {
  epoch(): Epoch
  /** The highest place of this epoch's log that a good backup holds; 0 where none does. */
  coveredSeq(): number
  backups: BackupKeeper
  health(): Promise<Health>
  /** What the check of the log has come to. */
  chainIs(state: ChainState): void
}

export function makeBox(parts: KeeperParts & { epoch: Epoch }): Box {
  const { dataFolder, now, epoch } = parts
  const backups = makeBackupKeeper(parts)
  let chain: ChainState = 'not_checked'
  return {
    epoch: () => epoch,
    coveredSeq() {
      const { last } = backups.state()
      return Math.max(epoch.from?.seq ?? 0, last?.epoch === epoch.id ? last.seq : 0)
    },
    backups,
    health: makeHealth({ dataFolder, now, backups, chain: () => chain }),
    chainIs(state) {
      chain = state
    },
  }
}
