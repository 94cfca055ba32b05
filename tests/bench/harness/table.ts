/** The figures as a table for people, and as one JSON object for programs. */
import { judged, type Line, type NotMeasured, ratioOf, verdictOn } from './line'

export type Outcome = Line | NotMeasured

const isLine = (outcome: Outcome): outcome is Line => 'ours' in outcome

export function shown(value: number): string {
  if (value === 0) return '0'
  const size = Math.abs(value)
  if (size >= 1000) return Math.round(value).toLocaleString('en')
  return value.toFixed(size >= 100 ? 0 : size >= 10 ? 1 : 2)
}

function goalOf({ goal, unit }: Line): string {
  if (!goal) return '–'
  const sign = goal.wants === 'at least' ? '≥' : '≤'
  const of = { ours: ` ${unit}`, ratio: ' ×', difference: ` ${unit} more` }[goal.by]
  return `${sign} ${goal.goal}${of} (${goal.stretch})`
}

const HEAD = ['what', 'ours', 'reference', 'ratio', 'goal (stretch)', '']

export function table(outcomes: readonly Outcome[]): string {
  const rows = outcomes.map((outcome) => {
    if (!isLine(outcome)) return [outcome.what, 'not measured', '', '', '', 'NOT MEASURED']
    const { what, unit, ours, reference } = outcome
    const ratio = ratioOf(outcome)
    return [
      what,
      `${shown(ours)} ${unit}`,
      reference === undefined ? '–' : `${shown(reference)} ${unit}`,
      ratio === undefined ? '–' : shown(ratio),
      goalOf(outcome),
      verdictOn(outcome),
    ]
  })
  const all = [HEAD, ...rows]
  const widths = HEAD.map((_, column) => Math.max(...all.map((row) => (row[column] ?? '').length)))
  const drawn = all.map((row) =>
    row
      .map((cell, column) =>
        column >= 1 && column <= 3 ? cell.padStart(widths[column] ?? 0) : cell.padEnd(widths[column] ?? 0),
      )
      .join('  ')
      .trimEnd(),
  )
  return [drawn[0], widths.map((width) => '─'.repeat(width)).join('  '), ...drawn.slice(1)].join('\n')
}

/** What each reference is and how it was measured, under the table. */
export function remarks(outcomes: readonly Outcome[]): string {
  return outcomes
    .flatMap((outcome) => {
      if (!isLine(outcome)) return [`${outcome.what}: not measured. ${outcome.why}`]
      const said = [...(outcome.beside ? [`beside ${outcome.beside}`] : []), ...(outcome.notes ?? [])]
      return said.length > 0 ? [`${outcome.what}:`, ...said.map((one) => `  ${one}`)] : []
    })
    .join('\n')
}

export function asJson(outcomes: readonly Outcome[], about: object): string {
  const figures = outcomes.map((outcome) =>
    isLine(outcome)
      ? { ...outcome, ratio: ratioOf(outcome), judged: judged(outcome), verdict: verdictOn(outcome) }
      : { ...outcome, verdict: 'not measured' },
  )
  return JSON.stringify({ ...about, figures }, null, 2)
}
