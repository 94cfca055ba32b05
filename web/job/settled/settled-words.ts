/** A torque nobody published: who settles it, and once settled on what it rests. Pure. */
import type { ProposalInputs } from '../../../shared/fastener'
import { basisWords } from '../../../shared/job/trail/sentences'
import type { SettledValue } from '../../../shared/job/types'
import { leads } from '../../../shared/shop/entitlement'
import type { Shop } from '../../../shared/shop/types'
import { ended, listed, type Words } from '../../../shared/words'
import { format } from '../../format'

/** `Suvi or Owen decides it.` */
export function whoSettles(shop: Shop): string {
  const names = Object.values(shop.people)
    .filter(leads)
    .map(({ name }) => name)
  return `${listed(names, 'or') || 'A supervisor'} decides it.`
}

/** `Not published; decided by Suvi 09:40, on a competent person’s word: … It replaces 12 N·m.` */
export function settledWords(value: SettledValue, words: Words): string {
  const { basis, by, doneAt, reason } = value
  const on =
    basis.kind === 'computed' && basis.proposal
      ? computedBriefly(basis.proposal.inputs)
      : basisWords(basis, format)
  const [, ...before] = settlings(value)
  const replaces = before.map(({ torqueNm }) => `${words.torque(torqueNm, 'N·m')} N·m`)
  return [
    `Not published; decided by ${words.person(by)} ${words.moment(doneAt)}, ${ended(on)}`,
    ended(reason),
    replaces.length > 0 ? `It replaces ${listed(replaces)}.` : '',
  ]
    .filter(Boolean)
    .join(' ')
}

/** As much as a hand at the bench can check: the rest stands on the value's page. */
const computedBriefly = ({ lubrication, holeMaterial, engagementMm }: ProposalInputs): string =>
  `computed for ${lubrication}, ${holeMaterial.split(',')[0]}, ${format.number(engagementMm, 1)} mm of thread`

export type Settling = Omit<SettledValue, 'earlier'>

/** Every value this pass had, the one in force first, then back to the first. */
export const settlings = (value: SettledValue | undefined): Settling[] =>
  value ? [value, ...(value.earlier ?? []).toReversed()] : []
