/**
 * Which files the built pages come in: few, because each costs a slow tablet its share, and no page loads much that it does
 * not need. What several pages import goes by which of them do; the rest is the bundler's to lay out.
 */
import { fileURLToPath } from 'node:url'

/** What the bundler knows of a module, as far as it is asked here. */
interface Graph {
  getModuleInfo(id: string): { importedIds: readonly string[] } | null
}

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url))
const FIRST = at('./main.tsx')
const page = (name: string) => at(`./pages/${name}/index.tsx`)
const BOARD = page('board')
const DESK = page('spec-desk')
const SHOP = page('shop')
const OF_A_JOB = ['engine', 'bench', 'audit', 'settle', 'record'].map(page)

/** In turn: what one takes, the next ones lean on. */
const FILES = ['first', 'shared', 'trade', 'plan', 'job'] as const

/** The bundler's groups. */
export function chunks() {
  const known = new Map<string, Set<string>>()

  /** All that comes with a page before it is drawn. */
  function needs(entry: string, graph: Graph): Set<string> {
    const found = known.get(entry) ?? new Set([entry])
    if (known.has(entry)) return found
    known.set(entry, found)
    for (const id of found) for (const next of graph.getModuleInfo(id)?.importedIds ?? []) found.add(next)
    return found
  }

  function fileOf(id: string, graph: Graph): (typeof FILES)[number] | undefined {
    const isIn = (entry: string) => needs(entry, graph).has(id)
    // What starts them stays by itself, the one file that index.html names.
    if (id === FIRST) return undefined
    if (isIn(FIRST) || id.includes('rolldown/runtime')) return 'first'
    const users = OF_A_JOB.filter(isIn).length
    if (isIn(BOARD)) return users > 0 ? 'shared' : undefined
    if (isIn(DESK)) return users > 0 ? 'trade' : undefined
    if (isIn(SHOP)) return users > 0 ? 'plan' : undefined
    return users > 1 ? 'job' : undefined
  }

  return FILES.map((file, index) => ({
    name: (id: string, graph: Graph) => (fileOf(id, graph) === file ? file : null),
    priority: FILES.length - index,
  }))
}
