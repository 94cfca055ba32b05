/** Where entries outlive a reload, a closed tab and a night. */
import { commandIdOf, type QueuedCommand } from './outbox'
import { openPageShelf } from './page-shelf'
import { memoryShelf, type Shelf } from './retry-queue'

/** Memory instead, with `lasting: false`, where this browser has no such store or will not open it. */
export async function openEntryShelf(shopKey: string): Promise<Shelf<QueuedCommand>> {
  try {
    return await openPageShelf<QueuedCommand, QueuedCommand>(`paintmark-entries-${shopKey}`, {
      keyOf: commandIdOf,
      pack: (entry) => entry,
      unpack: (entry) => entry,
    })
  } catch {
    return memoryShelf(commandIdOf)
  }
}
