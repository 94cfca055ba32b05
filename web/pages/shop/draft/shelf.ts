/**
 * Where plans in draft, and the torque sheet being gone through, outlive a reload: a store of this browser, one for each
 * shop by its log's key. Nothing of it leaves this device until the plan is taken into the library.
 */
import { createStore, del, entries, get, set, type UseStore } from 'idb-keyval'
import type { Plan } from '../../../../shared/plan/types'
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
    const store = createStore(`paintmark-drafts-${shopKey}`, 'drafts')
    await get(SHEET, store)
    return lastingShelf(store)
  } catch {
    return memoryShelf()
  }
}

const newestFirst = (drafts: Draft[]) => drafts.sort((a, b) => b.changedAt - a.changedAt)

function lastingShelf(store: UseStore): DraftShelf {
  return {
    lasting: true,
    async all() {
      const stored = await entries<string, Draft>(store)
      return newestFirst(stored.flatMap(([key, draft]) => (key.startsWith('draft ') ? [draft] : [])))
    },
    get: (id) => get<Draft>(keyOf(id), store),
    put: (draft) => set(keyOf(draft.id), draft, store),
    drop: (id) => del(keyOf(id), store),
    sheet: () => get<SheetWork>(SHEET, store),
    putSheet: (work) => (work ? set(SHEET, work, store) : del(SHEET, store)),
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
