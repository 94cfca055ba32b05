/** A torque sheet in words: what was read, what columns are called, how many lines are what. */
import type { Role } from '../../../../shared/sheet'
import { type Spec, specPassWords } from '../../../../shared/spec'
import { TORQUE_UNITS, type TorqueUnit } from '../../../../shared/units'
import { counted } from '../../../../shared/words'
import { format } from '../../../format'
import type { SheetCounts, WorkLine } from './sheet-work'

export const ROLE_WORDS: Record<Role, string> = {
  item: 'what it is',
  position: 'position number',
  torque: 'torque',
  also: 'the same torque in a second unit',
  min: 'lowest torque',
  max: 'highest torque',
  angle: 'angle',
  unit: 'unit',
  thread: 'thread',
  grade: 'grade',
  lubrication: 'lubrication',
  length: 'length of the bolt',
  bolt_thread: 'length of its thread',
  stack: 'what it clamps',
  thread_depth: 'depth of the thread',
  hole_depth: 'depth of the hole',
  hole: 'what the hole is cut in',
  count: 'how many',
  use: 'new or used again',
  group: 'group or step',
  note: 'note',
  none: 'not used',
}

export const DELIMITER_WORDS = {
  '\t': 'tabs',
  ';': 'semicolons',
  ',': 'commas',
  '|': 'vertical bars',
  spaces: 'gaps, as on a printed page',
  lines: 'nothing: the torque ends each line',
} as const

/** The usual ones first. */
export const UNITS: readonly TorqueUnit[] = [
  'N·m',
  'lbf·ft',
  'lbf·in',
  'kgf·m',
  'kgf·cm',
  ...TORQUE_UNITS.filter((unit) => !['N·m', 'lbf·ft', 'lbf·in', 'kgf·m', 'kgf·cm'].includes(unit)),
]

/** `30 N·m (27 to 33 N·m) → +90°`: the passes, each with its band. */
export const specWords = (spec: Spec): string =>
  spec.passes.map((pass) => specPassWords(pass, format)).join(' → ')

/** `42 read, 5 doubtful, 3 not read; 1 impossible, 4 headings, 1 left out`. */
export function countsWords(counts: SheetCounts): string {
  const { read, look, unread, stopped, open, headings, out } = counts
  const more = [
    stopped ? `${stopped} impossible` : '',
    headings ? counted(headings, 'heading') : '',
    open ? `${open} left without a torque` : '',
    out ? `${out} left out` : '',
  ].filter(Boolean)
  return [`${read} read, ${look} doubtful, ${unread} not read`, more.join(', ')].filter(Boolean).join('; ')
}

/** What a line is called where its torque field or its class must be named. */
export function lineName({ line }: WorkLine): string {
  const name = line.kind === 'item' ? line.item : line.kind === 'section' ? line.title : ''
  return name ? `line ${line.line}, ${name}` : `line ${line.line}`
}

/** What its author said, for the note on its joint; the text as pasted stands beside it already. */
export function authorNotes({ correction, original, line, doubt }: WorkLine): string[] {
  if (!correction) return []
  const { printed, seen, thread, grade, count, open } = correction
  const notes: string[] = []
  if (open) notes.push(['The author leaves it without a torque.', ...doubt].join(' '))
  if (printed !== undefined)
    notes.push(
      original.kind === 'item' && original.printed.trim()
        ? `The author reads the torque as “${printed}”, not as “${original.printed}”.`
        : `The torque, “${printed}”, is the author’s.`,
    )
  if (thread !== undefined)
    notes.push(
      `The thread is the author’s${original.kind === 'item' && original.thread ? `; pasted was “${original.thread}”` : ''}.`,
    )
  if (grade !== undefined) notes.push('The grade is the author’s.')
  if (count !== undefined) notes.push('How many is the author’s word.')
  if (seen && !open && doubt.length > 0 && line.kind === 'item')
    notes.push(`The author looked at it and lets it stand: ${doubt.join(' ')}`)
  return notes
}
