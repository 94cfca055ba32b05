/** A torque sheet as it was pasted: its columns and why they are taken so, and every line with what it says. */
import type { Spec, SpecRefusal } from '../spec'
import type { TorqueUnit } from '../units'

/** `also`: the same torque in a second unit; `none`: kept in the line's text only. */
export type Role =
  | 'item'
  | 'torque'
  | 'also'
  | 'min'
  | 'max'
  | 'angle'
  | 'unit'
  | 'thread'
  | 'count'
  | 'note'
  | 'none'
export const ROLES: readonly Role[] = [
  'item',
  'torque',
  'also',
  'min',
  'max',
  'angle',
  'unit',
  'thread',
  'count',
  'note',
  'none',
]

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

/** `spaces`: runs of two or more, or leaders of dots. `lines`: no columns; the torque stands at each line's end. */
export type Delimiter = '\t' | ';' | ',' | '|' | 'spaces' | 'lines'

export interface Sheet {
  delimiter: Delimiter
  columns: SheetColumn[]
  /** Every line that is not blank, in order. */
  lines: SheetLine[]
}

export type SheetLine = HeaderLine | SectionLine | ItemLine

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
  spec?: Spec
  refusal?: SpecRefusal
  thread?: string
  count?: number
  note?: string
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
