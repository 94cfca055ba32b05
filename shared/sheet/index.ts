/** Torque sheets: a pasted table read line by line, and a build plan drafted from it. */
export { besideOf, judgedLine, type Row, readingsOf } from './line'
export { type PlanDraft, type PlanHead, sheetToPlan } from './plan'
export { doubtfulFirst, readSheet } from './read'
export { threadRead } from './threads'
export {
  type Delimiter,
  type HeaderLine,
  type ItemLine,
  ROLES,
  type Role,
  type SectionLine,
  type Sheet,
  type SheetChoices,
  type SheetColumn,
  type SheetContext,
  type SheetLine,
} from './types'
