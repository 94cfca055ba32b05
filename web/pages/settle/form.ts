/**
 * Settling a torque nobody published: what was typed, what is missing in it, and the command it makes.
 *
 * Three ways: a source with its edition and page; a computed proposal with what was added to it; a competent person's own
 * word. Value and limits are proposed until somebody types their own. Whichever it is stands in the record for ever.
 */
import {
  inputsWords,
  PROPOSAL_METHOD,
  type Proposal,
  type ProposalAdded,
  type Proposed,
} from '../../../shared/fastener'
import type { CommandOf } from '../../../shared/job/commands'
import { sentenceFor } from '../../../shared/job/refusals'
import type { ValueBasis } from '../../../shared/job/types'
import { refuse } from '../../../shared/log'
import { compareNm, formatNumber } from '../../../shared/units'
import { exact } from '../../../shared/words'
import { format } from '../../format'

export interface SettleForm {
  kind: ValueBasis['kind'] | ''
  title: string
  edition: string
  page: string
  competence: string
  /** What is added to the plan for a proposal. `own`: a shear strength from the maker’s data. */
  material: string
  materialWords: string
  shear: string
  engagement: string
  utilisation: string
  grade: string
  /** What the plan’s word for the lubrication means, by the vocabulary. */
  lubrication: string
  frictionLow: string
  frictionHigh: string
  head: string
  clearance: string
  /** Empty: as proposed. */
  value: string
  min: string
  max: string
  reason: string
}
export const OWN_MATERIAL = 'own'

export const EMPTY_FORM: SettleForm = {
  kind: '',
  title: '',
  edition: '',
  page: '',
  competence: '',
  material: '',
  materialWords: '',
  shear: '',
  engagement: '',
  utilisation: '',
  grade: '',
  lubrication: '',
  frictionLow: '',
  frictionHigh: '',
  head: '',
  clearance: '',
  value: '',
  min: '',
  max: '',
  reason: '',
}

export type FieldErrors = Partial<Record<keyof SettleForm, string>>
type Settled = { command: CommandOf<'SettleValue'> } | { errors: FieldErrors }

const ASKED: Record<ValueBasis['kind'], Partial<Record<keyof SettleForm, string>>> = {
  source: {
    title: 'Name the book or sheet.',
    edition: 'Say which edition: values change between them.',
    page: 'Say which page, so that it can be found again.',
  },
  computed: {},
  word: { competence: 'Say whose word it is, and what makes them competent.' },
}

/** `24`, `24.5` or `24,5`; nothing else is taken for a number. */
export function numberIn(text: string): number | undefined {
  const plain = text.trim().replace(',', '.')
  return /^\d+(?:\.\d+)?$/.test(plain) ? Number(plain) : undefined
}

const ADDED_NUMBERS = [
  'engagement',
  'utilisation',
  'frictionLow',
  'frictionHigh',
  'head',
  'clearance',
] as const

/** What the form adds to the plan, and which of its numbers are none. Empty fields add nothing. */
export function addedIn(form: SettleForm): { added: ProposalAdded; errors: FieldErrors } {
  const errors: FieldErrors = {}
  const numbers: Partial<Record<(typeof ADDED_NUMBERS)[number] | 'shear', number>> = {}
  for (const field of [...ADDED_NUMBERS, ...(form.material === OWN_MATERIAL ? (['shear'] as const) : [])]) {
    const typed = form[field].trim()
    if (typed === '' && field !== 'shear') continue
    const value = numberIn(typed)
    if (value === undefined || value === 0)
      errors[field] = typed === '' ? 'Enter it.' : `“${typed}” is not a number.`
    else numbers[field] = value
  }
  const { engagement, utilisation, frictionLow, frictionHigh, head, clearance, shear } = numbers
  const low = frictionLow ?? frictionHigh
  const high = frictionHigh ?? frictionLow
  if (utilisation !== undefined && utilisation > 1) errors.utilisation = 'A share of yield is at most 1.'
  const material =
    form.material === OWN_MATERIAL
      ? shear === undefined
        ? undefined
        : { words: form.materialWords.trim() || 'as entered', shearMPa: shear }
      : form.material || undefined
  return {
    errors,
    added: {
      ...(material === undefined ? {} : { holeMaterial: material }),
      ...(engagement === undefined ? {} : { engagementMm: engagement }),
      ...(utilisation === undefined || errors.utilisation ? {} : { utilisation }),
      ...(form.grade.trim() === '' ? {} : { grade: form.grade.trim() }),
      ...(form.lubrication === '' ? {} : { lubrication: form.lubrication }),
      ...(low === undefined || high === undefined ? {} : { friction: { low, high } }),
      ...(head === undefined ? {} : { headBearingMm: head }),
      ...(clearance === undefined ? {} : { clearanceHoleMm: clearance }),
    },
  }
}

/** The proposal there is, where that is the way chosen. */
export const proposalOf = (form: SettleForm, proposed: Proposed): Proposal | undefined =>
  form.kind === 'computed' && 'proposal' in proposed ? proposed.proposal : undefined

/** Value and limits as they stand in the fields: typed, else proposed; limits by what the shop allows for the class. */
export function valuesShown(
  form: SettleForm,
  proposal: Proposal | undefined,
  tolerancePct: number,
): Pick<SettleForm, 'value' | 'min' | 'max'> {
  const value = form.value || (proposal ? format.number(proposal.results.torqueNm, 2) : '')
  const nm = numberIn(value)
  const at = (side: 1 | -1) =>
    nm === undefined || nm === 0 ? '' : format.number(inward(nm * (1 + (side * tolerancePct) / 100), side), 2)
  return { value, min: form.min || at(-1), max: form.max || at(1) }
}

/** To 0.01 N·m, towards the value: a limit is never widened by rounding. */
const inward = (nm: number, side: 1 | -1): number =>
  side === 1 ? Math.floor(nm * 100 + 1e-6) / 100 : Math.ceil(nm * 100 - 1e-6) / 100

export function settle(
  jointId: string,
  pass: number,
  form: SettleForm,
  proposed: Proposed,
  tolerancePct: number,
): Settled {
  const errors: FieldErrors = {}
  const proposal = proposalOf(form, proposed)
  if (form.kind === '') errors.kind = 'Choose what the value rests on.'
  else
    for (const [field, sentence] of Object.entries(ASKED[form.kind]) as [keyof SettleForm, string][])
      if (form[field].trim() === '') errors[field] = sentence
  if (form.kind === 'computed') {
    Object.assign(errors, addedIn(form).errors)
    if (!proposal)
      errors.kind = 'Nothing is proposed for this joint. Add what is asked, or choose another way.'
  }
  const shown = valuesShown(form, proposal, tolerancePct)
  const [torqueNm, minNm, maxNm] = [numberIn(shown.value), numberIn(shown.min), numberIn(shown.max)]
  if (!isTorque(torqueNm)) errors.value = `Enter the torque in N·m${BETWEEN}.`
  if (!isTorque(minNm)) errors.min = `Enter the lowest acceptable reading${BETWEEN}.`
  if (!isTorque(maxNm)) errors.max = `Enter the highest acceptable reading${BETWEEN}.`
  if (torqueNm !== undefined && minNm !== undefined && minNm > torqueNm)
    errors.min = `The lowest is above the value itself, ${exact(torqueNm, format)} N·m.`
  if (torqueNm !== undefined && maxNm !== undefined && maxNm < torqueNm)
    errors.max = `The highest is below the value itself, ${exact(torqueNm, format)} N·m.`
  if (proposal && maxNm !== undefined && compareNm(maxNm, proposal.results.ceilingNm) > 0)
    errors.max = sentenceFor(
      refuse('above_proposal', { maxNm, ceilingNm: Number(formatNumber(proposal.results.ceilingNm, 2)) }),
      NOBODY,
    )
  if (form.reason.trim() === '') errors.reason = 'Say why this value is right for this joint.'
  const basis = basisOf(form, proposal)
  if (Object.keys(errors).length > 0 || !basis) return { errors }
  return {
    command: {
      type: 'SettleValue',
      jointId,
      pass,
      torqueNm: torqueNm as number,
      minNm: minNm as number,
      maxNm: maxNm as number,
      basis,
      reason: form.reason.trim(),
    },
  }
}

/** As the log takes it. */
const MOST_NM = 1_000_000
const BETWEEN = `, above 0 and at most ${format.number(MOST_NM)}`
const isTorque = (nm: number | undefined): nm is number => nm !== undefined && nm > 0 && nm <= MOST_NM

/** The sentence names neither people nor times. */
const NOBODY = { ...format, person: (id: string) => id, moment: String, date: String }

function basisOf({ kind, ...form }: SettleForm, proposal: Proposal | undefined): ValueBasis | undefined {
  switch (kind) {
    case 'source':
      return { kind, title: form.title.trim(), edition: form.edition.trim(), page: form.page.trim() }
    case 'computed':
      return (
        proposal && { kind, method: PROPOSAL_METHOD, inputs: inputsWords(proposal.inputs, format), proposal }
      )
    case 'word':
      return { kind, competence: form.competence.trim() }
    default:
      return undefined
  }
}
