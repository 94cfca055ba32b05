/**
 * One engine as one long bar, left to right through its stages: a cell a step, wide as its share of the work.
 *
 * Thin outline: not ready. Heavy outline: ready. Half filled, initials above: in work. Pale with an empty slot:
 * waits for a second signature. Steel with bars of paint along the foot: signed, and second-signed. A gap with a
 * hatch, its reason below: on hold. Half filled with a slanted end: stopped. Broken outline with a tab below, tied
 * to where it is due: left out. A notch on the upper edge: critical. A rust diamond: a flag stands. Its accessible
 * name says the same in words.
 */
import { createMemo } from 'solid-js'
import { HOLD_KINDS } from '../../shared/job/kinds'
import type { Cell } from '../../shared/job/summary'
import { listed } from '../../shared/words'
import { paintColour } from '../ui/paint'
import { stripMarkup } from './strip-markup'
import { drawStrip, LEAST_HEIGHT } from './strip-shapes'
import type { StripHold } from './strip-types'
import './strip.css'

/** Whose initials and paint stand in a cell. */
interface StripPeople {
  cardOf(id: string): { initials: string; paint: string } | undefined
  nameOf(id: string): string
}

interface BuildStripProps {
  cells: readonly Cell[]
  stages: readonly { id: string; title: string }[]
  holds?: readonly StripHold[] | undefined
  people: StripPeople
  /** In CSS pixels: drawn to measure, never squeezed, so that lines and letters stay as they are. */
  width: number
  /** For the wall: everything so much larger, letters and lines too. */
  scale?: number
  /** Nobody sees it yet: its room and its words stand, the drawing comes when this ends. */
  later?: boolean
}

export function BuildStrip(props: BuildStripProps) {
  const scale = () => props.scale ?? 1
  const width = () => Math.floor(props.width / scale())
  // A job is told anew with each of its events; what of it is drawn here seldom changes.
  const cells = createMemo(() => props.cells)
  const stages = createMemo(() => props.stages)
  const holds = createMemo(() => props.holds)
  const strip = createMemo(() => {
    if (props.later) return undefined
    return drawStrip({
      cells: cells(),
      stages: stages(),
      holds: holds() ?? [],
      width: width(),
      initialsOf: (id) => props.people.cardOf(id)?.initials ?? '?',
      paintOf: (id) => paintColour(props.people.cardOf(id)?.paint),
    })
  })
  const height = () => strip()?.height ?? LEAST_HEIGHT
  const drawing = () => {
    const drawn = strip()
    return drawn ? stripMarkup(drawn) : ''
  }
  const words = createMemo(() => stripWords(cells(), props.people.nameOf, holds()))
  return (
    <svg
      class="strip"
      width={props.width}
      height={height() * scale()}
      viewBox={`0 0 ${width()} ${height()}`}
      role="img"
      aria-label={words()}
      innerHTML={drawing()}
    />
  )
}

/** The strip for those who hear it. */
export function stripWords(
  cells: readonly Cell[],
  nameOf: (id: string) => string,
  holds: readonly StripHold[] = [],
): string {
  const signed = cells.filter(({ standing }) => standing === 'done' || standing === 'awaiting_second').length
  const ids = (standing: Cell['standing']) =>
    cells.filter((cell) => cell.standing === standing).map(({ stepId }) => stepId)
  const inWork = cells.flatMap((cell) =>
    cell.standing === 'in_work' ? [`${cell.stepId}${cell.by ? ` by ${nameOf(cell.by)}` : ''}`] : [],
  )
  const flagged = cells.flatMap(({ flagged: odd, stepId }) => (odd ? [stepId] : []))
  const off = cells.flatMap(({ offLimits, stepId }) => (offLimits ? [stepId] : []))
  const curing = cells.flatMap(({ curesAt, stepId }) => (curesAt === undefined ? [] : [stepId]))
  const held = cells.flatMap(({ standing, stepId }) => {
    if (standing !== 'on_hold') return []
    const why = holds.find(({ stepIds }) => stepIds.includes(stepId))
    return [why ? `${stepId} (${HOLD_KINDS[why.kind].word}: ${why.what})` : stepId]
  })
  const leftOut = cells.flatMap(({ stepId, dueAt }) => (dueAt ? [`${stepId} at ${listed(dueAt)}`] : []))
  const say = (what: string, which: readonly string[]) =>
    which.length > 0 ? [`${what}: ${listed(which)}.`] : []
  return [
    `${signed} of ${cells.length} steps signed.`,
    ...say('In work', inWork),
    ...say('Flagged', flagged),
    ...say('Out of limits', off),
    ...say('On hold', held),
    ...say('Stopped', ids('stopped')),
    ...say('Waiting for a cure', curing),
    ...say('Left out, due later', leftOut),
    ...say('Needs a second signature', ids('awaiting_second')),
    ...say('Ready', ids('ready')),
  ].join(' ')
}
