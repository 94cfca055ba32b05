/** A torque sheet as it was pasted: its columns and why they are taken so, and every line with what it says. */
import type { Spec, SpecContext, SpecRefusal } from '../spec'
import type { DecimalSign, TorqueUnit } from '../units'

/**
 * `also`: the same torque in a second unit; `group`: the step a line lands in; `stack` to `hole`: what the bolt clamps, how deep the
 * thread and the hole go, what it is cut in; `none`: kept in the line's text only.
 */
export const ROLES = [
  'item',
  'position',
  'torque',
  'also',
  'min',
  'max',
  'angle',
  'unit',
  'thread',
  'grade',
  'lubrication',
  'length',
  'bolt_thread',
  'stack',
  'thread_depth',
  'hole_depth',
  'hole',
  'count',
  'use',
  'group',
  'note',
  'none',
] as const
export type Role = (typeof ROLES)[number]

export interface SheetColumn {
  index: number
  /** As the header line says, if there is one. */
  title?: string
  role: Role
  /** Why it is taken so, in words. */
  why: string
  /** What its bare numbers are in, where the header says so. */
  unit?: TorqueUnit
  /** And those in brackets or behind a slash: `Nm (lb ft)` over `47 (35)`. */
  second?: TorqueUnit
}

/** The decimal style that the sheet's numbers prove. */
export interface NumberStyle {
  sign: DecimalSign
  /** The first number that proves it, and its line. */
  text: string
  line: number
  /** Do others prove the other sign? */
  mixed: boolean
}

export type Use = 'one_use' | 'reusable'

export interface SheetContext {
  style?: NumberStyle
  /** The decimal sign its numbers are read by; unsure where they prove both alike. */
  sign?: DecimalSign | 'unsure'
  /** Does any line give a grade? Where none does, the assumed one is said once for all. */
  gradesGiven: boolean
}

/** `spaces`: runs of two or more, or leaders of dots. `lines`: no columns; the torque stands at each line's end. */
export type Delimiter = '\t' | ';' | ',' | '|' | 'spaces' | 'lines'

export interface Sheet {
  delimiter: Delimiter
  columns: SheetColumn[]
  /** Every line that is not blank, in order. */
  lines: SheetLine[]
  /** What holds for the sheet and not for one line, each in a sentence. */
  remarks: string[]
  /** What its lines are read and judged with beside their own cells. */
  context: SheetContext
}

export type SheetLine = HeaderLine | SectionLine | ItemLine

/** mm. */
export type Lengths = Partial<Record<LengthRole, number>>
export const LENGTH_ROLES = ['length', 'bolt_thread', 'stack', 'thread_depth', 'hole_depth'] as const
export type LengthRole = (typeof LENGTH_ROLES)[number]

interface AnyLine {
  /** From 1, as in the pasted text. */
  line: number
  /** As pasted. */
  text: string
  /** What a person should look at, each in a sentence. */
  doubt?: string[]
}
export interface HeaderLine extends AnyLine {
  kind: 'header'
}
export interface SectionLine extends AnyLine {
  kind: 'section'
  title: string
}
export interface ItemLine extends AnyLine {
  kind: 'item'
  item: string
  /** What was read: the torque cell, or what the cells of the line come to together. */
  printed: string
  /** Words beside the torque its author took from among them. */
  beside?: string
  /** The unit of its bare numbers and the decimal sign, as it was read. */
  context?: SpecContext
  spec?: Spec
  refusal?: SpecRefusal
  thread?: string
  count?: number
  note?: string
  /** As printed: the number of the drawing or of the list. */
  position?: string
  grade?: string
  lubrication?: string
  use?: Use
  /** The bolt and its hole, as far as columns say them: then its fit is judged too. */
  lengths?: Lengths
  /** What the hole is cut in. */
  hole?: string
  /** The step it lands in, where a column says it. */
  group?: string
  /** What is odd about the row itself, apart from its torque; part of `doubt`. */
  odd?: string[]
  /** Other ways to read the torque, each clear. */
  readings?: string[]
  /** Why no plan is made while the line has this torque; the first of `doubt`. */
  stop?: string
  /** Said beside the line, and no doubt: an assumed pitch, a lubrication that is not known. */
  told?: string[]
}

/** What the author says where the guess is wrong. */
export interface SheetChoices {
  /** A column's role by its index. */
  roles?: Readonly<Record<number, Role>>
  /** What bare numbers are in where neither line nor header says so. */
  unit?: TorqueUnit
  delimiter?: Delimiter
  /** The line number of the header; `null`: there is none. */
  headerLine?: number | null
}
