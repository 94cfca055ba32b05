/** A torque nobody published: who settles it, and once settled on what it rests. Pure. */
import type { ProposalInputs } from '../../../shared/fastener'
import { basisWords } from '../../../shared/job/trail/sentences'
import type { SettledValue } from '../../../shared/job/types'
import { bandWords } from '../../../shared/plan/words'
import { leads } from '../../../shared/shop/entitlement'
import type { Shop } from '../../../shared/shop/types'
import { listed, type Words } from '../../../shared/words'
import { format } from '../../format'

/** `Suvi or Owen settles it.` */
export function whoSettles(shop: Shop): string {
  const names = Object.values(shop.people)
    .filter(leads)
    .map(({ name }) => name)
  return names.length === 0
    ? 'A supervisor decides it.'
    : `${listed(names).replace(/ and (?=[^,]*$)/, ' or ')} decides it.`
}

export function settledWords(value: SettledValue, words: Words): string {
  const { basis } = value
  const on =
    basis.kind === 'source'
      ? `from ${basis.title}, ${basis.edition}, page ${basis.page}`
      : basis.kind === 'computed'
        ? basis.proposal
          ? computedBriefly(basis.proposal.inputs)
          : `computed by ${basis.method}`
        : `on the word of ${words.person(value.by)}, ${basis.competence}`
  return `Not published; decided by ${words.person(value.by)} ${words.moment(value.doneAt)}, ${on}. ${value.reason.replace(/[^.!?]$/, '$&.')}`
}

/** As much as a hand at the bench can check: the rest stands on the value's page. */
const computedBriefly = ({ lubrication, holeMaterial, engagementMm }: ProposalInputs): string =>
  `computed for ${lubrication}, ${holeMaterial.split(',')[0]}, ${format.number(engagementMm, 1)} mm of thread`

export type Settling = Omit<SettledValue, 'earlier'>

/** Every value this pass had, the one in force first, then back to the first. */
export const settlings = (value: SettledValue | undefined): Settling[] =>
  value ? [value, ...(value.earlier ?? []).toReversed()] : []

/** `105 N·m, 95 to 115 N·m; on a competent person’s word: …`: the value and what it rests on. */
export const valueWords = ({ torqueNm, band, basis }: Settling): string =>
  `${format.torque(torqueNm, 'N·m')} N·m, ${bandWords(band, format)}; ${basisWords(basis)}`
