/**
 * What somebody must see to today, drawn from the summaries and the roles they hold; most pressing first.
 *
 * Each line is one engine, one thing, in words to act on. Nothing is assigned here: a line stands as long as its
 * cause does, and for everybody whose role it is.
 */
import { HOLD_KINDS, holdKind } from '../../../shared/job/kinds'
import type { JobSummary } from '../../../shared/job/summary'
import { RELEASES } from '../../../shared/plan/kinds'
import { mayDo } from '../../../shared/shop/entitlement'
import type { Role } from '../../../shared/shop/kinds'
import type { Person } from '../../../shared/shop/types'
import { counted, type Words } from '../../../shared/words'
import { format } from '../../format'
import { auditHref, benchHref, engineHref } from '../../hrefs'
import { promiseState } from '../../job/promise-words'

export interface ToDo {
  jobId: string
  number: string
  href: string
  text: string
  /** Lower presses more. */
  rank: number
  /** Late, or already in the way of somebody. */
  pressing: boolean
}

/** Who looks: the roles, and, once the shop is known, the joints they are entered for. */
export interface Looker {
  id: string
  roles: readonly Role[]
  entered?: Pick<Person, 'mayDo' | 'maySecondSign'>
}

/** `about`: said once, though two roles of one person are asked for it. */
type Line = Omit<ToDo, 'jobId' | 'number' | 'href'> & { href?: string; about?: string }

/** What one engine asks of them. */
export function toDoOn(summary: JobSummary, looker: Looker, now: number, words: Words): ToDo[] {
  if (summary.reason.code === 'released') return []
  // An owner who holds no other role looks after everything.
  const ownerOnly = looker.roles.every((role) => role === 'owner')
  const holds = (role: Role) => ownerOnly || looker.roles.includes(role)
  const lines = [
    ...(holds('service_writer') ? office(summary, now, words) : []),
    ...(looker.roles.includes('technician') ? bench(summary, looker, words) : []),
    ...(holds('supervisor') ? supervisor(summary, words) : []),
  ]
  const seen = new Set<string>()
  return lines.flatMap(({ about, ...line }) => {
    const once = about ?? line.text
    if (seen.has(once)) return []
    seen.add(once)
    return [{ jobId: summary.id, number: summary.number, href: engineHref(summary.id), ...line }]
  })
}

export const mostPressing = (todos: readonly ToDo[]): ToDo[] =>
  todos.toSorted((a, b) => a.rank - b.rank || format.compare(a.number, b.number))

/** A hold without an expected date is asked after until it has one. */
function office(summary: JobSummary, now: number, words: Words): Line[] {
  const today = format.calendar.dayOf(now)
  const lines: Line[] = []
  for (const { kind, what, expectedAt } of summary.holds ?? []) {
    const { office } = holdKind(kind)
    const due = expectedAt === undefined || format.calendar.dayOf(expectedAt) <= today
    const late = expectedAt !== undefined && format.calendar.dayOf(expectedAt) < today
    if (kind === 'damage') lines.push({ text: `${office}: ${what}`, rank: 1, pressing: late })
    else if (office && due)
      lines.push({
        about: what,
        text: `${office}: ${what}${late ? `, expected ${words.moment(expectedAt as number)}` : ''}`,
        rank: late ? 0 : 2,
        pressing: late,
      })
  }
  if (summary.promised) {
    const { day, left, over, near } = promiseState(summary.promised, today)
    if (over || near) lines.push({ text: `Promised for ${day}: ${left}`, rank: over ? 0 : 3, pressing: over })
  }
  if (summary.releasable === 'to_owner')
    lines.push({ text: 'Ready to go to its owner: arrange the day', rank: 4, pressing: false })
  return lines
}

/** My own steps stand as buttons above; here what I could take, and what is asked of me. */
function bench(summary: JobSummary, { id, entered }: Looker, words: Words): Line[] {
  const family = summary.plan?.family ?? ''
  const mine = new Set(summary.cells.flatMap(({ by, stepId }) => (by === id ? [stepId] : [])))
  const questions = (summary.holds ?? [])
    .filter(({ kind, stepIds }) => kind === 'question' && stepIds.some((stepId) => mine.has(stepId)))
    .map(({ what }) => ({ about: what, text: `Question for you: ${what}`, rank: 1, pressing: false }))
  const looks = (summary.toLook ?? [])
    .filter(({ by, before, class: cls }) => by !== id && before && entered && mayLook(entered, cls, family))
    .map(({ title, by }) => ({
      text: `Look at ${words.person(by)}’s ${title} before it is covered`,
      rank: 2,
      pressing: false,
    }))
  const [next, ...others] = (summary.ready ?? []).filter(
    ({ class: cls }) => entered && mayDo(entered as Person, cls, family),
  )
  if (!next) return [...questions, ...looks]
  const more = others.length > 0 ? `, and ${others.length} more` : ''
  return [
    ...questions,
    ...looks,
    {
      text: `Ready for you: ${next.stepId} ${next.title}${more}`,
      rank: 6,
      pressing: false,
      href: benchHref(summary.id, next.stepId),
    },
  ]
}

const mayLook = (entered: Pick<Person, 'maySecondSign'>, cls: 'A' | 'B' | 'C', family: string): boolean =>
  mayDo({ mayDo: entered.maySecondSign } as Person, cls, family)

function supervisor(summary: JobSummary, words: Words): Line[] {
  const audit = auditHref(summary.id)
  const flagged = summary.cells.filter((cell) => cell.flagged).map(({ stepId }) => stepId)
  const off = summary.cells.filter((cell) => cell.offLimits).map(({ stepId }) => stepId)
  const questions = (summary.holds ?? []).filter(({ kind }) => kind === 'approval' || kind === 'question')
  const looks = summary.toLook ?? []
  const unsettled = summary.unsettled ?? 0
  const { reason } = summary
  return [
    ...(reason.code === 'second_late'
      ? [
          {
            text: `${reason.step} ${reason.title} covers what is not signed off: have it taken off, or accept with a reason`,
            rank: -1,
            pressing: true,
            href: audit,
          },
        ]
      : []),
    ...looks
      .filter(({ before }) => before)
      .map(({ title, by, before }) => ({
        text: `${title} by ${words.person(by)}: a second signature before “${before}” covers it`,
        rank: 0,
        pressing: true,
        href: audit,
      })),
    ...(flagged.length > 0
      ? [{ text: `Flagged: ${flagged.join(', ')}`, rank: 1, pressing: true, href: audit }]
      : []),
    ...(off.length > 0
      ? [
          {
            text: `Out of limits: ${off.join(', ')}`,
            rank: 1,
            pressing: true,
            href: audit,
          },
        ]
      : []),
    ...questions.map(({ kind, what }) => ({
      about: what,
      text: `Open ${HOLD_KINDS[kind].word}: ${what}`,
      rank: 2,
      pressing: false,
    })),
    ...(summary.reason.code === 'no_plan'
      ? [{ text: 'Adopt its build plan', rank: 3, pressing: false }]
      : []),
    ...(summary.releasable
      ? [
          {
            text: `Release it ${RELEASES[summary.releasable].to}: nothing is open`,
            rank: 4,
            pressing: false,
            href: audit,
          },
        ]
      : []),
    ...(unsettled > 0
      ? [
          {
            text: `Decide ${counted(unsettled, 'torque')} that nobody published`,
            rank: 5,
            pressing: false,
            href: audit,
          },
        ]
      : []),
  ]
}
