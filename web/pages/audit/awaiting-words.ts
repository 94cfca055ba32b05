/** What wants the supervisor, in words: what is to be looked at, and how soon it is covered. */
import type { PlaceInPlan, SetAwaiting, UnitSlipLine } from '../../../shared/audit/awaiting'
import type { Flag } from '../../../shared/job/kinds'
import type { Reading } from '../../../shared/job/types'
import { JOINT_CLASSES, type JointClass } from '../../../shared/plan/kinds'
import { listed, positionsInWords, type Words } from '../../../shared/words'
import { format } from '../../format'
import type { Counts } from '../../job/record/verdict'

/** `Main cap bolts 1–8`. */
export const coversWords = (set: SetAwaiting): string =>
  listed(set.covers.map(({ title, positions }) => `${title} ${positionsInWords(positions)}`))

/** Why it is on the list. */
export function awaitsWords(set: SetAwaiting, words: Words): string {
  switch (set.awaits) {
    case 'work':
      return 'Covered, and not finished.'
    case 'first':
      return 'Tightened; the doer has not signed.'
    case 'second':
      return set.first
        ? `Signed by ${words.person(set.first.by)}, ${words.moment(set.first.doneAt)}; a second signature is missing.`
        : 'A second signature is missing.'
  }
}

/** What covers it, and when. */
export function coverWords(set: SetAwaiting): string {
  if (set.hiddenBy.length > 0)
    return `${listed(set.hiddenBy.map(({ id, title }) => `${id} ${title}`))} ${set.hiddenBy.length === 1 ? 'covers' : 'cover'} it already.`
  const next = set.hiddenNextBy
  if (!next) return 'Nothing covers it later.'
  const name = `${next.id} ${next.title}`
  if (next.stepsBefore === 0) return `Next: ${name} covers it.`
  return `${name} covers it, after ${next.stepsBefore === 1 ? 'one more step' : `${next.stepsBefore} more steps`}.`
}

/** Both readings of a number that fits only in another unit, neither taken for true. */
export function slipWords(line: UnitSlipLine): { asRead: string; asMeant: string } {
  const { slip } = line.entry
  if (!slip) return { asRead: '', asMeant: '' }
  const value = format.number(slip.value)
  const nm = (torqueNm: number, unit: string) =>
    unit === 'N·m' ? '' : ` = ${format.torque(torqueNm, 'N·m')} N·m`
  return {
    asRead: `${value} ${slip.readAs}${nm(slip.readNm, slip.readAs)}`,
    asMeant: `${value} ${slip.fitsAs}${nm(slip.fitsNm, slip.fitsAs)}`,
  }
}

interface ClassBar extends Counts {
  class: JointClass
  text: string
}

/** One bar a class that the plan has. */
export function classBars(byClass: ReadonlyMap<string, Counts>): ClassBar[] {
  return JOINT_CLASSES.flatMap((cls) => {
    const counts = byClass.get(cls)
    if (!counts) return []
    const parts = [
      `${counts.proven} signed off`,
      counts.accepted > 0 ? `${counts.accepted} accepted with a reason` : '',
      counts.final > 0 ? `${counts.final} final, not signed by all` : '',
      counts.flagged > 0 ? `${counts.flagged} flagged` : '',
      counts.open > 0 ? `${counts.open} open` : '',
    ].filter(Boolean)
    const text =
      counts.proven === counts.fasteners
        ? `all ${counts.fasteners} signed off`
        : `${counts.fasteners}: ${parts.join(', ')}`
    return [{ class: cls, ...counts, text }]
  })
}

type FlaggedLine = PlaceInPlan & { reading: Reading; hidden: boolean }

/** Positions of one joint and pass that carry the same flags from the same hand: one thing to settle. */
interface FlaggedGroup extends PlaceInPlan {
  pass: number
  flags: readonly Flag[]
  hidden: boolean
  /** As they were recorded. */
  readings: Reading[]
}

export function groupFlagged(lines: readonly FlaggedLine[]): FlaggedGroup[] {
  const groups = new Map<string, FlaggedGroup>()
  for (const { reading, ...place } of lines) {
    const key = [place.joint, reading.pass, reading.by, reading.how, place.hidden, ...reading.flags].join(' ')
    const group = groups.get(key)
    if (group) group.readings.push(reading)
    else groups.set(key, { ...place, pass: reading.pass, flags: reading.flags, readings: [reading] })
  }
  // What a cover lies on already is the costliest to reach.
  return [...groups.values()].sort((a, b) => Number(b.hidden) - Number(a.hidden))
}

/** A scale held up and the clicks taken on it are one slip: the scale stands for them, and says how many. */
export function foldSlips(lines: readonly UnitSlipLine[]): (UnitSlipLine & { clicks: number })[] {
  const scales = new Set(lines.flatMap((line) => (line.kind === 'scale' ? [line.entry.id] : [])))
  const onScale = (line: UnitSlipLine): string | undefined =>
    line.kind === 'reading' && line.entry.scaleId !== undefined && scales.has(line.entry.scaleId)
      ? line.entry.scaleId
      : undefined
  return lines
    .filter((line) => onScale(line) === undefined)
    .map((line) => {
      const clicks = lines.filter((other) => line.kind === 'scale' && onScale(other) === line.entry.id)
      return { ...line, clicks: clicks.length, stands: line.stands || clicks.some((click) => click.stands) }
    })
}
