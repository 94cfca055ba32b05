/**
 * What the shop has taken of this device's entries and no good backup holds yet. After a restore the log may lack them: they
 * are then sent again under the same ids, and what it has already counts once.
 */
import type { LogEpoch } from '../../shared/protocol'
import type { DeviceStore } from './device-store'
import { commandIdOf, type QueuedCommand } from './outbox'

interface Acknowledged {
  entry: QueuedCommand
  /** Which life of the log took it, and at which place. */
  epoch: string
  seq: number
}

export interface AcknowledgedEntries {
  keep(entry: QueuedCommand, epoch: string, seq: number): Promise<void>
  /** A backup holds the log up to there. */
  covered(epoch: LogEpoch): Promise<void>
  /** In the order the log had them; but for what that epoch took. */
  all(butOf?: string): Promise<QueuedCommand[]>
  drop(commandId: string): Promise<void>
}

/** A shop that makes no backups never covers any: the oldest go first. */
const MOST = 5000

export function keepAcknowledged(store: DeviceStore<Acknowledged>): AcknowledgedEntries {
  const inOrder = async () => (await store.values()).sort((a, b) => a.seq - b.seq)
  async function drop(some: readonly Acknowledged[]): Promise<void> {
    for (const { entry } of some) await store.drop(commandIdOf(entry))
  }
  return {
    keep: (entry, epoch, seq) => store.put(commandIdOf(entry), { entry, epoch, seq }),
    async covered({ id, coveredSeq }) {
      const kept = await inOrder()
      const isCovered = ({ epoch, seq }: Acknowledged) => epoch === id && seq <= coveredSeq
      await drop(kept.filter(isCovered))
      await drop(kept.filter((one) => !isCovered(one)).slice(0, -MOST))
    },
    all: async (butOf) => (await inOrder()).filter(({ epoch }) => epoch !== butOf).map(({ entry }) => entry),
    drop: store.drop,
  }
}
