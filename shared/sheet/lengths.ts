/**
 * The bolt and its hole where a sheet has columns for them: lengths read from their cells, and whether the one fits the other.
 *
 * The plan's own fit is asked (`plan/fasteners.ts`), so that the import, the draft and the library say the same of a bolt.
 */
import { isRefusal } from '../log'
import { fitSaid, NOT_GIVEN } from '../plan/fasteners'
import type { FitJoint } from '../plan/fit'
import { parseLength } from '../units'
import { type Figures, unended } from '../words'
import { fastenerOf } from './fasteners'
import { threadRead } from './threads'
import { type ItemLine, LENGTH_ROLES, type LengthRole, type Lengths, type SheetColumn } from './types'

const INCHES = /(?:^|[\s(,/])(?:in|ins|inch|inches|zoll|pouces?|pulgadas?|pollici|tum)\.?\)?$|["″]/i

/** A bare number is in what its heading says, else in mm; the unread ones are told. */
export function lengthsIn(
  columns: readonly SheetColumn[],
  cells: readonly string[],
): { lengths: Lengths; odd: string[] } {
  const lengths: Lengths = {}
  const odd: string[] = []
  for (const column of columns) {
    const cell = cells[column.index] ?? ''
    if (cell === '' || !isLength(column.role)) continue
    const inches = INCHES.test(column.title ?? '')
    const bare = /^[\d.,\s]+$/.test(cell)
    const read = parseLength(bare ? `${cell} ${inches ? 'in' : 'mm'}` : cell)
    if (isRefusal(read) || !(read.mm > 0 && read.mm <= MOST_MM)) odd.push(`“${cell}” is not a length.`)
    else lengths[column.role] = read.mm
  }
  return { lengths, odd }
}

const MOST_MM = 10_000
const isLength = (role: string): role is LengthRole => (LENGTH_ROLES as readonly string[]).includes(role)

/** The line's bolt and hole as a plan has them; without a drilled depth the hole is as deep as its thread, and it is said. */
export function boltOf(
  line: Pick<ItemLine, 'item' | 'thread' | 'lengths' | 'hole'>,
): FitJoint & { told: string[] } {
  const { length, bolt_thread, stack, thread_depth, hole_depth } = line.lengths ?? {}
  const fastener = fastenerOf(line.item)
  const read = line.thread === undefined ? undefined : threadRead(line.thread)
  const written = read && 'lengthMm' in read ? read.lengthMm : undefined
  const lengthMm = length ?? written
  const blind = fastener === 'bolt'
  const whole = stack !== undefined && thread_depth !== undefined
  return {
    fastener,
    thread: line.thread ?? NOT_GIVEN,
    ...(lengthMm === undefined ? {} : { lengthMm }),
    ...(bolt_thread === undefined ? {} : { boltThreadMm: bolt_thread }),
    ...(whole
      ? {
          hole: {
            material: line.hole ?? NOT_GIVEN,
            stackMm: stack,
            threadMm: thread_depth,
            ...(hole_depth !== undefined ? { depthMm: hole_depth } : blind ? { depthMm: thread_depth } : {}),
          },
        }
      : {}),
    told: [
      ...(whole && blind && hole_depth === undefined
        ? ['How deep the hole is drilled is not given: it is taken as deep as its thread.']
        : []),
      ...(!whole && (stack ?? thread_depth ?? hole_depth) !== undefined
        ? ['Stack and thread depth together say whether the bolt fits; one of them is not given.']
        : []),
    ],
  }
}

/** What is said against bolt and hole. */
export function fitDoubts(bolt: FitJoint, figures: Figures): string[] {
  const said = fitSaid(bolt, figures)
  if (!said) return []
  const fix = said.grave ? said.fix : 'Measure how long its thread is.'
  return [said.at === 'hole' ? `${unended(said.problem)}.` : `The ${said.problem}. ${fix}`]
}
