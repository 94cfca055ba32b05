/**
 * Where plans in draft, and the torque sheet being gone through, outlive a reload: a store of this browser, one for each
 * shop by its log's key. Nothing of it leaves this device until the plan is taken into the library.
 */
import type { Plan } from '../../../../shared/plan/types'
import { type DeviceStore, openDeviceStore } from '../../../live/device-store'
import type { SheetWork } from '../sheet/sheet-work'

export interface Draft {
  id: string
  plan: Plan
  changedAt: number
}

export interface DraftShelf {
  /** False where this browser has no such store: what is written is gone with the page. */
  lasting: boolean
  all(): Promise<Draft[]>
  get(id: string): Promise<Draft | undefined>
  put(draft: Draft): Promise<void>
  drop(id: string): Promise<void>
  sheet(): Promise<SheetWork | undefined>
  putSheet(work: SheetWork | undefined): Promise<void>
}

const SHEET = 'sheet'
const keyOf = (id: string) => `draft ${id}`
const open = new Map<string, Promise<DraftShelf>>()

/** One for all pages of a shop on this device. */
export function draftShelf(shopKey: string): Promise<DraftShelf> {
  const known = open.get(shopKey) ?? openShelf(shopKey)
  open.set(shopKey, known)
  return known
}

async function openShelf(shopKey: string): Promise<DraftShelf> {
  try {
    return lastingShelf(await openDeviceStore<Draft | SheetWork>(`paintmark-drafts-${shopKey}`, 'drafts'))
  } catch {
    return memoryShelf()
  }
}

const newestFirst = (drafts: Draft[]) => drafts.sort((a, b) => b.changedAt - a.changedAt)

/** Keys say what lies there. */
function lastingShelf(store: DeviceStore<Draft | SheetWork>): DraftShelf {
  return {
    lasting: true,
    async all() {
      const stored = await store.entries()
      return newestFirst(stored.flatMap(([key, draft]) => (key === SHEET ? [] : [draft as Draft])))
    },
    get: async (id) => (await store.get(keyOf(id))) as Draft | undefined,
    put: (draft) => store.put(keyOf(draft.id), draft),
    drop: (id) => store.drop(keyOf(id)),
    sheet: async () => (await store.get(SHEET)) as SheetWork | undefined,
    putSheet: (work) => (work ? store.put(SHEET, work) : store.drop(SHEET)),
  }
}

export function memoryShelf(): DraftShelf {
  const drafts = new Map<string, Draft>()
  let sheet: SheetWork | undefined
  return {
    lasting: false,
    all: async () => newestFirst([...drafts.values()]),
    get: async (id) => drafts.get(id),
    async put(draft) {
      drafts.set(draft.id, draft)
    },
    async drop(id) {
      drafts.delete(id)
    },
    sheet: async () => sheet,
    async putSheet(work) {
      sheet = work
    },
  }
}
