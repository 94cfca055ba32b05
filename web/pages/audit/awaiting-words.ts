/** What wants the supervisor, in words: what is to be looked at, and how soon it is covered. */
import type { SetAwaiting, UnitSlipLine } from '../../../shared/audit/awaiting'
import type { Completeness } from '../../../shared/audit/record'
import { JOINT_CLASSES, type JointClass } from '../../../shared/plan/types'
import { formatNumber, showTorque } from '../../../shared/units'
import { listed, positionsInWords, type Words } from '../../../shared/words'

/** `Main cap bolts 1–8`. */
export const coversWords = (one: SetAwaiting): string =>
  listed(one.covers.map(({ title, positions }) => `${title} ${positionsInWords(positions)}`))

/** Why it is on the list. */
export function awaitsWords(one: SetAwaiting, words: Words): string {
  switch (one.awaits) {
    case 'work':
      return 'Covered with work still to do.'
    case 'first':
      return 'Tightened; the doer has not signed.'
    case 'second':
      return one.first
        ? `Signed by ${words.person(one.first.by)}, ${words.moment(one.first.doneAt)}; a second look is owed.`
        : 'A second look is owed.'
  }
}

/** What covers it, and when. */
export function coverWords(one: SetAwaiting): string {
  if (one.hiddenBy.length > 0)
    return `${listed(one.hiddenBy.map(({ id, title }) => `${id} ${title}`))} ${one.hiddenBy.length === 1 ? 'covers' : 'cover'} it already.`
  const next = one.hiddenNextBy
  if (!next) return 'Nothing covers it later.'
  const name = `${next.id} ${next.title}`
  if (next.stepsBefore === 0) return `Next: ${name} covers it.`
  return `${name} covers it, after ${next.stepsBefore === 1 ? 'one more step' : `${next.stepsBefore} more steps`}.`
}

/** Both readings of a number that fits only in another unit, neither taken for true. */
export function slipWords(line: UnitSlipLine): { asRead: string; asMeant: string } {
  const { slip } = line.entry
  if (!slip) return { asRead: '', asMeant: '' }
  const value = formatNumber(slip.value)
  const nm = (torqueNm: number, unit: string) =>
    unit === 'N·m' ? '' : ` = ${showTorque(torqueNm, 'N·m')} N·m`
  return {
    asRead: `${value} ${slip.readAs}${nm(slip.readNm, slip.readAs)}`,
    asMeant: `${value} ${slip.fitsAs}${nm(slip.fitsNm, slip.fitsAs)}`,
  }
}

export interface ClassBar {
  class: JointClass
  fasteners: number
  proven: number
  final: number
  flagged: number
  open: number
  text: string
}

/** One bar a class that the plan has. */
export function classBars(complete: Completeness): ClassBar[] {
  return JOINT_CLASSES.filter((cls) => complete[cls].fasteners > 0).map((cls) => {
    const counts = complete[cls]
    const parts = [
      `${counts.proven} proven`,
      counts.final > 0 ? `${counts.final} final, not signed by all` : '',
      counts.flagged > 0 ? `${counts.flagged} flagged` : '',
      counts.open > 0 ? `${counts.open} open` : '',
    ].filter(Boolean)
    return { class: cls, ...counts, text: `${counts.fasteners}: ${parts.join(', ')}` }
  })
}
