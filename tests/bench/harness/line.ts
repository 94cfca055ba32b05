/** One line of the table: a figure, ours beside the reference of the same run, and whether the goal is held. */

export interface Goal {
  /** What is judged: our number itself, its ratio to the reference, or how much more it is. */
  by: 'ours' | 'ratio' | 'difference'
  wants: 'at least' | 'at most'
  goal: number
  stretch: number
}

export interface Line {
  figure: string
  what: string
  unit: string
  ours: number
  reference?: number
  /** What the reference is, in a few words. */
  beside?: string
  goal?: Goal
  /** How it was measured, and where it goes when it misses. */
  notes?: string[]
}

/** A figure that could not be measured says so; it never passes. */
export interface NotMeasured {
  figure: string
  what: string
  why: string
}

export type Verdict = 'stretch met' | 'goal met' | 'NOT MET' | 'for comparison'

export const ratioOf = ({ ours, reference }: Line): number | undefined =>
  reference ? ours / reference : undefined

export function judged(line: Line): number | undefined {
  switch (line.goal?.by) {
    case 'ours':
      return line.ours
    case 'ratio':
      return ratioOf(line)
    case 'difference':
      return line.reference === undefined ? undefined : line.ours - line.reference
    default:
      return undefined
  }
}

export function verdictOn(line: Line): Verdict {
  if (!line.goal) return 'for comparison'
  const value = judged(line)
  const { wants, goal, stretch } = line.goal
  // A goal without a number to judge is not held.
  const holds = (bound: number) =>
    value !== undefined && (wants === 'at least' ? value >= bound : value <= bound)
  return holds(stretch) ? 'stretch met' : holds(goal) ? 'goal met' : 'NOT MET'
}
