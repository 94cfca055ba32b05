/** The short form T = K·d·F, and the range of preload a torque leaves. Beside VDI 2230, never instead of it. */
import { isRefusal } from '../log'
import type { BasisId } from './basis'
import { type PreloadScatter, preloadScatter } from './friction'
import { impossible, impossibleIfGiven, partsOf } from './numbers'
import type { FastenerRefusal } from './refusals'

export interface ShortFormInput {
  /** Nut factor K, no unit. */
  k: number
  /** Nominal diameter, mm; `dMm` says the same. */
  d?: number
  dMm?: number
  /** Preload, N; `preloadN` says the same. */
  preload?: number
  preloadN?: number
  /** How it is tightened, for the scatter. */
  method?: string
}

export interface ShortForm {
  torqueNm: number
  k: number
  dMm: number
  preloadN: number
  scatter?: PreloadScatter & { preloadLowN: number; preloadHighN: number }
  basis: BasisId[]
}

/** Torque, N·m, from a nut factor, a diameter in mm and a preload in N: T = K·d·F / 1000. */
export function shortForm(input: ShortFormInput): ShortForm | FastenerRefusal {
  const parts = partsOf(input)
  const dMm = parts.dMm ?? parts.d
  const preloadN = parts.preloadN ?? parts.preload
  const fault =
    impossible('Nut factor', parts.k, 'nut_factor') ??
    impossible('Diameter', dMm, 'length') ??
    impossible('Preload', preloadN, 'force')
  if (fault) return fault
  const scatter = parts.method === undefined ? undefined : preloadScatter(parts.method)
  if (isRefusal(scatter)) return scatter
  const figures = { k: parts.k ?? 0, dMm: dMm ?? 0, preloadN: preloadN ?? 0 }
  return {
    torqueNm: (figures.k * figures.dMm * figures.preloadN) / 1000,
    ...figures,
    ...(scatter ? { scatter: { ...scatter, ...spread(figures.preloadN, scatter.plusMinusPct / 100) } } : {}),
    basis: ['short_form', ...(scatter ? (['preload_scatter'] as const) : [])],
  }
}

const spread = (meanN: number, share: number) => ({
  preloadLowN: meanN * (1 - share),
  preloadHighN: meanN * (1 + share),
})

export interface PreloadRangeInput {
  torqueNm: number
  k: number
  dMm: number
  /** Γ, as a percentage either side: 25 lubricated, 35 dry unless tested. */
  plusMinusPct: number
  /** Lost to settling soon after. */
  settlingPct?: number
}

export interface PreloadRange {
  nominalN: number
  lowN: number
  highN: number
  /** The low end after settling. */
  settledLowN: number
  basis: BasisId[]
}

/**
 * What preload a torque leaves, N: (1 ± Γ)·T/(K·d), the low end less settling (5 % unless given).
 *
 * Source: NASA-STD-5020A, section 6, from memory.
 */
export function preloadRange(input: PreloadRangeInput): PreloadRange | FastenerRefusal {
  const {
    torqueNm = Number.NaN,
    k = Number.NaN,
    dMm = Number.NaN,
    plusMinusPct = Number.NaN,
    settlingPct = 5,
  } = partsOf(input)
  const fault =
    impossible('Torque', torqueNm, 'torque') ??
    impossible('Nut factor', k, 'nut_factor') ??
    impossible('Diameter', dMm, 'length') ??
    impossible('Scatter', plusMinusPct, 'percent') ??
    impossibleIfGiven('Settling', settlingPct, 'percent')
  if (fault) return fault
  const nominalN = (torqueNm * 1000) / (k * dMm)
  const lowN = nominalN * (1 - plusMinusPct / 100)
  return {
    nominalN,
    lowN,
    highN: nominalN * (1 + plusMinusPct / 100),
    settledLowN: lowN * (1 - settlingPct / 100),
    basis: ['preload_range'],
  }
}
