/**
 * Settling a torque nobody published: what was typed, what is missing in it, and the command it makes.
 *
 * Three ways: a source with its edition and page; a computation, its method and inputs typed by hand; a competent
 * person's word. Whichever it is stands in the record for ever.
 */
import type { CommandOf, ValueBasis } from '../../../shared/job/types'

export interface SettleForm {
  kind: ValueBasis['kind'] | ''
  title: string
  edition: string
  page: string
  method: string
  inputs: string
  competence: string
  value: string
  min: string
  max: string
  reason: string
}

export const EMPTY_FORM: SettleForm = {
  kind: '',
  title: '',
  edition: '',
  page: '',
  method: '',
  inputs: '',
  competence: '',
  value: '',
  min: '',
  max: '',
  reason: '',
}

export type Wrong = Partial<Record<keyof SettleForm, string>>
export type Settled = { command: CommandOf<'SettleValue'> } | { wrong: Wrong }

const ASKED: Record<ValueBasis['kind'], Partial<Record<keyof SettleForm, string>>> = {
  source: {
    title: 'Name the book or sheet.',
    edition: 'Say which edition: values change between them.',
    page: 'Say which page, so that it can be found again.',
  },
  computed: { method: 'Say how it was reckoned.', inputs: 'Say from what: thread, grade, friction.' },
  word: { competence: 'Say whose word it is, and what makes them competent.' },
}

/** `24`, `24.5` or `24,5`; nothing else is taken for a number. */
export function numberIn(text: string): number | undefined {
  const plain = text.trim().replace(',', '.')
  return /^\d+(?:\.\d+)?$/.test(plain) ? Number(plain) : undefined
}

export function settle(jointId: string, pass: number, form: SettleForm): Settled {
  const wrong: Wrong = {}
  if (form.kind === '') wrong.kind = 'Choose what the value rests on.'
  else
    for (const [field, sentence] of Object.entries(ASKED[form.kind]) as [keyof SettleForm, string][])
      if (form[field].trim() === '') wrong[field] = sentence
  const [torqueNm, minNm, maxNm] = [numberIn(form.value), numberIn(form.min), numberIn(form.max)]
  if (torqueNm === undefined || torqueNm === 0) wrong.value = 'Enter the torque in N·m.'
  if (minNm === undefined) wrong.min = 'Enter the lowest acceptable reading.'
  if (maxNm === undefined) wrong.max = 'Enter the highest acceptable reading.'
  if (torqueNm !== undefined && minNm !== undefined && minNm > torqueNm)
    wrong.min = `The lowest is above the value itself, ${torqueNm} N·m.`
  if (torqueNm !== undefined && maxNm !== undefined && maxNm < torqueNm)
    wrong.max = `The highest is below the value itself, ${torqueNm} N·m.`
  if (form.reason.trim() === '') wrong.reason = 'Say why this value is right for this joint.'
  const basis = basisOf(form)
  if (Object.keys(wrong).length > 0 || !basis) return { wrong }
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

function basisOf({ kind, ...form }: SettleForm): ValueBasis | undefined {
  switch (kind) {
    case 'source':
      return { kind, title: form.title.trim(), edition: form.edition.trim(), page: form.page.trim() }
    case 'computed':
      return { kind, method: form.method.trim(), inputs: form.inputs.trim() }
    case 'word':
      return { kind, competence: form.competence.trim() }
    default:
      return undefined
  }
}
