/**
 * Where in a plan file's text a fault stands, so that it can be shown in place and put right there.
 *
 * A fault names either a line and column (text that is not JSON) or a path as `placeName` writes it; the path is
 * followed through the text as far as it goes, for what is missing has no place of its own.
 */
import type { AsPrinted, TorquePass } from '../../../shared/plan/types'
import { keysOf } from '../../shop/plan-place'

export interface Place {
  offset: number
  /** From 1, as editors count. */
  line: number
}

type Key = string | number

export function placeOf(text: string, path: string): Place {
  const named = path.match(/^line (\d+), column (\d+)$/)
  if (named) {
    const line = Number(named[1])
    const before = text.split('\n').slice(0, line - 1)
    const offset = before.reduce((sum, line) => sum + line.length + 1, 0) + Number(named[2]) - 1
    return { offset: Math.min(offset, text.length), line }
  }
  const offset = follow(text, keysOf(path))
  return { offset, line: text.slice(0, offset).split('\n').length }
}

const TOKEN = /"(?:[^"\\]|\\.)*"|[{}[\],:]|[^\s{}[\],:"]+/g

/** The offset of the deepest part of the path that is there. */
function follow(text: string, keys: readonly Key[]): number {
  const here: { index: number; key: Key | undefined; list: boolean }[] = []
  let deepest = 0
  let matched = -1
  let name: string | undefined
  /** A value or a bracket begins at this offset. */
  const begins = (offset: number) => {
    const depth = here.length
    if (depth === 0 || depth > keys.length || depth - 1 <= matched) return
    if (here.every(({ key }, level) => key === keys[level])) {
      matched = depth - 1
      deepest = offset
    }
  }
  for (const match of text.matchAll(TOKEN)) {
    const [token] = match
    const top = here.at(-1)
    if (top && !top.list && name === undefined && token.startsWith('"')) {
      name = unquoted(token)
      top.key = name
      begins(match.index)
    } else if (token === ',') {
      name = undefined
      if (top?.list) top.key = ++top.index
    } else if (token === '}' || token === ']') {
      here.pop()
      name = undefined
    } else if (token !== ':') {
      if (top?.list) begins(match.index)
      if (token === '{') here.push({ index: 0, key: undefined, list: false })
      if (token === '[') here.push({ index: 0, key: 0, list: true })
      if (token === '{' || token === '[') name = undefined
    }
    if (matched === keys.length - 1) break
  }
  return deepest
}

function unquoted(token: string): string {
  try {
    return JSON.parse(token)
  } catch {
    return token.slice(1, -1)
  }
}

/** The plan with the torque at a path taken as printed; the same plan where no torque stands there. */
export function withAsPrinted<P>(plan: P, path: string, page: Pick<AsPrinted, 'photo' | 'reason'>): P {
  const copy = structuredClone(plan)
  const keys = keysOf(path)
  const pass = (keys.at(-1) === 'torqueNm' ? keys.slice(0, -1) : keys).reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null ? (value as Record<Key, unknown>)[key] : undefined,
    copy,
  ) as Partial<TorquePass> | undefined
  if (typeof pass?.torqueNm !== 'number') return plan
  const { torqueNm, limits } = pass
  pass.asPrinted = { torqueNm, maxNm: limits?.maxNm ?? torqueNm, ...page }
  return copy
}

const AROUND = 2
const WIDEST = 110

/** The line at fault with its neighbours; a file all on one line is cut to what lies round the place. */
export function excerpt(text: string, { offset, line }: Place): { n: number; text: string; at: boolean }[] {
  const lines = text.split('\n')
  const column = offset - (text.lastIndexOf('\n', offset - 1) + 1)
  const cut = (text: string, at: boolean) => {
    if (text.length <= WIDEST) return text
    const from = at ? Math.max(0, Math.min(column - WIDEST / 2, text.length - WIDEST)) : 0
    const end = from + WIDEST
    return `${from > 0 ? '…' : ''}${text.slice(from, end)}${end < text.length ? '…' : ''}`
  }
  return lines.slice(Math.max(0, line - 1 - AROUND), line + AROUND).map((text, index) => {
    const n = Math.max(1, line - AROUND) + index
    return { n, text: cut(text.replace(/\r$/, ''), n === line), at: n === line }
  })
}
