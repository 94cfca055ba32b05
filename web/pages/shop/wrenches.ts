/** The crib in words: what a wrench covers, whether it can be used today, and what a change of its card means. */
import type { Instant } from '../../../shared/log'
import { WRENCH_STATES } from '../../../shared/shop/kinds'
import type { Wrench } from '../../../shared/shop/types'
import { counted } from '../../../shared/words'
import { wrenchDoubts } from '../../../shared/wrench'
import { format } from '../../format'
import { dayText, momentOf, numberFrom, textOf } from './numbers'

const unitWords = (unit: Wrench['unit']) => (unit === 'deg' ? '°' : ` ${unit}`)

/** `10 to 60 N·m, in steps of 0.5`. */
export function rangeWords({ min, max, unit, increment }: Wrench): string {
  const range = `${format.number(min)} to ${format.number(max)}${unitWords(unit)}`
  return increment === undefined ? range : `${range}, in steps of ${format.number(increment)}`
}

const DAY_MS = 86_400_000
const SOON_DAYS = 30

/** Whether its readings stand without a doubt today, and the one reason where they do not. */
export function wrenchStanding(wrench: Wrench, now: Instant): { words: string; against: boolean } {
  if (wrench.state !== 'in_service') return { words: WRENCH_STATES[wrench.state], against: true }
  const { dueAt } = wrench
  if (dueAt === undefined) return { words: 'in service, no check due', against: false }
  if (wrenchDoubts(wrench, undefined, now).includes('wrench_out_of_date'))
    return { words: `check was due ${format.date(dueAt)}`, against: true }
  const days = Math.ceil((dueAt - now) / DAY_MS)
  if (days > SOON_DAYS) return { words: 'in service', against: false }
  return { words: `in service, check due in ${counted(days, 'day')}`, against: false }
}

/** Those that cannot be used first, then by id as people count. */
export function inCrib(wrenches: Iterable<Wrench>, now: Instant): Wrench[] {
  const rank = (wrench: Wrench) => (wrenchStanding(wrench, now).against ? 0 : 1)
  return [...wrenches].sort((a, b) => rank(a) - rank(b) || format.compare(a.id, b.id))
}

/** What follows for the work once this card is written, a sentence each; none where nothing does. */
export function changeMeans(before: Wrench | undefined, after: Wrench, now: Instant): string[] {
  const says: string[] = []
  const good = before === undefined || before.state === 'in_service'
  if (after.state === 'in_service' && !good) {
    says.push(
      `${after.id} may be used again: readings from now on stand without a doubt. Those taken with it while it was out of service keep their flag.`,
    )
  }
  if (after.state !== 'in_service' && before?.state !== after.state)
    says.push(
      `From now on a reading with ${after.id} is still recorded, but flagged, and what is flagged cannot be signed. The bench offers others that fit.`,
      ...(after.state === 'failed' || after.state === 'dropped' ? [EARLIER[after.state](after)] : []),
    )
  if (after.state === 'in_service' && after.dueAt !== undefined && after.dueAt < now)
    says.push(
      `Its check was due ${format.date(after.dueAt)}: readings with it are flagged until it was checked again.`,
    )
  else if (before?.dueAt !== undefined && before.dueAt < now && after.dueAt !== before.dueAt)
    says.push('Readings from now on are no longer past its check. Those flagged before keep their flag.')
  if (before && (before.min !== after.min || before.max !== after.max || before.unit !== after.unit))
    says.push(
      'Readings from now on are judged by the new scale; earlier ones keep the scale they were taken on.',
    )
  return says
}

const EARLIER = {
  failed: ({ lastCheckedAt }: Wrench) =>
    `Earlier readings are not changed by this. Everything since ${lastCheckedAt === undefined ? 'its last good check' : format.date(lastCheckedAt)} is in doubt: the record, filtered by this wrench, shows what it reached.`,
  dropped: () =>
    'Earlier readings are not changed by this. What was tightened after the fall is in doubt: the record, filtered by this wrench, shows it.',
} as const

/** A card as it is typed. */
export interface WrenchDraft {
  id: string
  kind: Wrench['kind']
  title: string
  unit: Wrench['unit']
  min: string
  max: string
  increment: string
  lengthMm: string
  away: string
  lastChecked: string
  due: string
  state: Wrench['state']
}

export function draftOf(wrench: Wrench | undefined): WrenchDraft {
  return {
    id: wrench?.id ?? '',
    kind: wrench?.kind ?? 'click',
    title: wrench?.title ?? '',
    unit: wrench?.unit ?? 'N·m',
    min: textOf(wrench?.min),
    max: textOf(wrench?.max),
    increment: textOf(wrench?.increment),
    lengthMm: textOf(wrench?.lengthMm),
    away: wrench?.away ?? '',
    lastChecked: dayText(wrench?.lastCheckedAt),
    due: dayText(wrench?.dueAt),
    state: wrench?.state ?? 'in_service',
  }
}

/** The card, or the sentence that says what it lacks. */
export function wrenchFrom(draft: WrenchDraft, before?: Wrench): Wrench | string {
  const id = draft.id.trim()
  const title = draft.title.trim()
  if (!id || !title) return 'Fill in what is painted or engraved on it, and what it is.'
  const min = numberFrom(draft.min)
  const max = numberFrom(draft.max)
  if (min === undefined || max === undefined) return 'Fill in the lowest and the highest number on its scale.'
  if (min >= max) return `The scale goes from ${draft.min} to ${draft.max}. Write the lower number first.`
  const increment = draft.increment.trim() === '' ? undefined : numberFrom(draft.increment)
  if (draft.increment.trim() !== '' && (increment === undefined || increment === 0))
    return `“${draft.increment.trim()}” is not a step of a scale. Write a number above 0, or leave it empty.`
  const lengthMm = draft.lengthMm.trim() === '' ? undefined : numberFrom(draft.lengthMm)
  if (draft.lengthMm.trim() !== '' && (lengthMm === undefined || lengthMm < 50 || lengthMm > 5000))
    return `“${draft.lengthMm.trim()}” is not the length of a wrench. Write mm from the middle of the drive to the middle of the grip, 50 to 5000, or leave it empty.`
  const away = draft.away.trim()
  const lastCheckedAt = momentOf(draft.lastChecked, 'first', before?.lastCheckedAt)
  const dueAt = momentOf(draft.due, 'last', before?.dueAt)
  if (lastCheckedAt !== undefined && dueAt !== undefined && dueAt < lastCheckedAt)
    return 'The next check is due before the last one. Put one of the dates right.'
  return {
    id,
    kind: draft.kind,
    title,
    unit: draft.kind === 'angle_gauge' ? 'deg' : draft.unit === 'deg' ? 'N·m' : draft.unit,
    min,
    max,
    ...(increment === undefined ? {} : { increment }),
    ...(lengthMm === undefined || draft.kind === 'angle_gauge' ? {} : { lengthMm }),
    ...(away ? { away } : {}),
    ...(lastCheckedAt === undefined ? {} : { lastCheckedAt }),
    ...(dueAt === undefined ? {} : { dueAt }),
    state: draft.state,
  }
}
