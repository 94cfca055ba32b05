/**
 * What a job's record amounts to: open, final, proven, ready, hidden. Pure views of the fold, never
 * stored, so that a rule that changes changes every verdict at once.
 *
 * Words as in GLOSSARY.md: a position is *final* when all its passes are reached without a standing flag, and
 * *proven* when every signature its set asks for stands as well. A waiver makes something *accepted*,
 * never proven. A file a subject; each asks only those above it here.
 */

export * from './verdicts/deferrals'
export * from './verdicts/fasteners'
export * from './verdicts/holes'
export * from './verdicts/limits'
export { readingById } from './verdicts/reading-index'
export * from './verdicts/readings'
export * from './verdicts/sets'
export * from './verdicts/state'
export * from './verdicts/steps'
