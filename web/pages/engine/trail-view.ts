/**
 * The trail as it is read: newest first, narrowed to a person or a step, with what came since put on top. Pure;
 * the sentences are `shared/job/trail.ts`'s.
 */
import type { TrailLine } from '../../../shared/job/trail'

interface TrailFilter {
  person?: string
  step?: string
}

export function narrowTrail(lines: readonly TrailLine[], { person, step }: TrailFilter): TrailLine[] {
  return lines
    .filter((line) => (!person || line.by === person) && (!step || line.stepId === step))
    .toSorted((a, b) => b.version - a.version)
}

/** People and steps that occur, for the filter's lists. */
export function occurringInTrail(lines: readonly TrailLine[]): { people: string[]; steps: string[] } {
  return {
    people: [...new Set(lines.map(({ by }) => by))],
    steps: [...new Set(lines.flatMap(({ stepId }) => stepId ?? []))],
  }
}

/** Lines by version, each once, however often and in whatever order they came. */
export function withNewer(lines: readonly TrailLine[], newer: readonly TrailLine[]): TrailLine[] {
  const byVersion = new Map([...lines, ...newer].map((line) => [line.version, line]))
  return [...byVersion.values()].sort((a, b) => a.version - b.version)
}
