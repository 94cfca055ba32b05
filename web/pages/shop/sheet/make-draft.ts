/**
 * The plan a gone-through sheet becomes: drafted by `sheetToPlan`, with what its author said.
 *
 * Classes are the author's, never taken for granted; a step with a class A joint asks for two signatures. Lines left
 * out of the plan are named in its notices: what the sheet printed can be found again in the plan itself.
 */
import type { JointClass } from '../../../../shared/plan/kinds'
import type { Plan } from '../../../../shared/plan/types'
import { type ItemLine, type PlanHead, type SheetLine, sheetToPlan } from '../../../../shared/sheet'
import { format } from '../../../format'
import { authorNotes } from './sheet-words'
import type { WorkLine } from './sheet-work'

const MOST = { notices: 36, text: 400 }

export function draftFrom(lines: readonly WorkLine[], head: PlanHead): Plan {
  const used = lines.filter(({ state }) => state !== 'out' && state !== 'header').map(withSaid)
  const classes = new Map(
    lines.flatMap(({ original, correction }) =>
      correction?.class ? [[`J${original.line}`, correction.class] as [string, JointClass]] : [],
    ),
  )
  const { plan } = sheetToPlan(used, head, format)
  const [, ...notices] = plan.notices ?? []
  return {
    ...plan,
    notices: [
      'Drafted from a torque sheet; the classes are its author’s. Each joint carries its line as pasted: look at it against the page.',
      ...notices,
      ...leftOut(lines),
    ],
    steps: plan.steps.map((step) => {
      const joints = step.joints.map((joint) => ({ ...joint, class: classes.get(joint.id) ?? joint.class }))
      return {
        ...step,
        joints,
        signatures: joints.some((joint) => joint.class === 'A') ? 2 : step.signatures,
      }
    }),
  }
}

function withSaid(work: WorkLine): SheetLine {
  const { line: judged, state, doubt } = work
  const line = state === 'open' && judged.kind === 'item' ? withoutTorque(judged) : judged
  // What is unread or contradicts itself gets its note from the draft itself.
  const open = state === 'look' && line.kind === 'item' && !line.spec?.contradiction ? doubt : []
  const notes = [...authorNotes(work), ...open.map((doubt) => `Not settled: ${doubt}`)]
  if (line.kind !== 'item' || notes.length === 0) return line
  return { ...line, note: [line.note, ...notes].filter(Boolean).join(' ') }
}

function withoutTorque({ spec, stop, ...line }: ItemLine): ItemLine {
  return line
}

function leftOut(lines: readonly WorkLine[]): string[] {
  const out = lines.filter(({ state }) => state === 'out')
  const named = out
    .slice(0, MOST.notices)
    .map(({ original }) => cut(`Left out by the author, line ${original.line}: ${original.text.trim()}`))
  return out.length > MOST.notices
    ? [...named, `${out.length - MOST.notices} more lines are left out by the author.`]
    : named
}

const cut = (text: string) => (text.length > MOST.text ? `${text.slice(0, MOST.text - 1)}…` : text)

/** An id a plan file takes, from its title: `Harrow R2 torques` is `harrow-r2-torques`. */
export function idFrom(title: string): string {
  return title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40)
    .replace(/-+$/, '')
}

/** The first edition of this id that the library does not have. */
export function freeEdition(known: Readonly<Record<number, unknown>> | undefined): number {
  return 1 + Math.max(0, ...Object.keys(known ?? {}).map(Number))
}
