/** A step in words: where it stands, what it asks, what it hides. Short enough to be read aloud across the shop. */
import type { AdoptedStep, Joint } from '../../../shared/plan/types'
import { listed, lowerFirst, positionsInWords, type Words } from '../../../shared/words'
import { format } from '../../format'
import type { Behind, NamedFasteners, Progress, StepView } from './step-view'

export function standingWords(view: StepView, words: Words): string {
  switch (view.standing) {
    case 'done':
      return 'done'
    case 'awaiting_second':
      return `${signedBy(view, words)}, needs a second signature`
    case 'in_work':
      return view.claim
        ? `in work by ${words.person(view.claim.by)} since ${words.moment(view.claim.doneAt)}`
        : 'in work'
    case 'ready':
      return view.begun ? 'ready: begun, then left' : 'ready'
    case 'stopped':
      return 'interrupted: somebody has to go on with it'
    case 'on_hold':
      return view.claim ? `on hold, still with ${words.person(view.claim.by)}` : 'on hold'
    case 'deferred':
      return 'left out on purpose'
    case 'not_ready':
      return notReady(view, words)
  }
}

/** `signed by Bram Tolland`, with the sets named while some are still open. */
function signedBy(view: StepView, words: Words): string {
  const names = [...new Set(view.signers.map(({ first }) => words.person(first.by)))]
  return `signed by ${listed(names)}`
}

function notReady(view: StepView, words: Words): string {
  if (view.curesAt !== undefined) return `waits for sealant to cure until ${words.moment(view.curesAt)}`
  const needs = view.needs.length > 0 ? `comes after ${listed(view.needs.map(({ id }) => id))}` : ''
  const hidden =
    view.unproven.length > 0
      ? `would cover ${listed(view.unproven.map(fastenersWords))}, not signed off yet`
      : ''
  return [needs, hidden].filter((part) => part !== '').join('; ') || 'not ready'
}

/** `main cap bolts`, `oil gallery plugs 1–2`; a title keeps its capitals past the first letter. */
export function fastenersWords({ title, positions }: NamedFasteners): string {
  const name = lowerFirst(title)
  return positions ? `${name} ${positionsInWords(positions)}` : name
}

/** What this step covers up, in words; `undefined` where it covers nothing. */
export function hidesWords(hides: readonly Behind[]): string | undefined {
  if (hides.length === 0) return undefined
  return listed(hides.map((hidden) => `${fastenersWords(hidden)} (${hidden.stepId})`))
}

/** What covers this step's fasteners, one part a hider. */
export function hiddenByWords(hiders: readonly Behind[]): { text: string; covered: boolean }[] {
  const byStep = new Map<string, Behind[]>()
  for (const hider of hiders) byStep.set(hider.stepId, [...(byStep.get(hider.stepId) ?? []), hider])
  return [...byStep].map(([stepId, parts]) => ({
    text: `${stepId} ${parts[0]?.covered ? 'covers' : 'will cover'} ${listed(parts.map(fastenersWords))}`,
    covered: parts[0]?.covered ?? false,
  }))
}

/** `8 × M12x1.25 × 75, 10.9`: what one holds in the hand. */
export function fastenerWords(joint: Pick<Joint, 'positions' | 'thread' | 'lengthMm' | 'grade'>): string {
  const length = joint.lengthMm === undefined ? '' : ` × ${format.number(joint.lengthMm)}`
  return `${joint.positions.length} × ${joint.thread}${length}, ${joint.grade}`
}

/** A stage's standing: `10 of 10 done`, `3 of 8 done, 1 waits for a second signature, 2 ready`. */
export function progressWords(progress: Progress): string {
  const parts = [`${progress.done} of ${progress.steps} done`]
  if (progress.awaiting > 0)
    parts.push(`${progress.awaiting} ${progress.awaiting === 1 ? 'needs' : 'need'} a second signature`)
  if (progress.inWork > 0) parts.push(`${progress.inWork} in work`)
  if (progress.ready > 0) parts.push(`${progress.ready} ready`)
  return parts.join(', ')
}

/** Every word of what a step asks, beside its number and title. */
export const stepText = ({
  joints,
  measurements,
  gates,
  parts,
  cautions,
  notes,
  sealant,
}: AdoptedStep): string =>
  [
    ...joints.flatMap((joint) => [joint.title, fastenerWords(joint), ...(joint.notes ?? [])]),
    ...measurements.flatMap((measurement) => [measurement.title, ...(measurement.notes ?? [])]),
    ...gates.map(({ text }) => text),
    ...parts.map(({ name }) => name),
    ...(cautions ?? []),
    ...(notes ?? []),
    sealant?.product,
  ]
    .filter(Boolean)
    .join(' ')
