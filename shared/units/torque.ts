/**
 * Torque units, exact: every unit is a ratio to the newton-metre fixed by definition, never a rounded
 * factor from a table.
 *
 * 1 in = 0.0254 m, 1 ft = 12 in, 1 lb = 0.453 592 37 kg, 1 oz = lb/16 and g_n = 9.806 65 m/s², all exact by
 * definition (the figures NIST SP 811 (2008), appendix B, works from). So 1 lbf = 4.448 221 615 260 5 N and
 * 1 lbf·ft = 1.355 817 948 331 400 4 N·m, exactly. `tests/published/units.test.ts` reckons both again.
 */
export const TORQUE_UNITS = [
  'N·m',
  'N·mm',
  'cN·m',
  'dN·m',
  'daN·m',
  'kN·m',
  'lbf·ft',
  'lbf·in',
  'ozf·in',
  'kgf·m',
  'kgf·cm',
] as const
export type TorqueUnit = (typeof TORQUE_UNITS)[number]

/** 0.453 592 37 kg × 9.806 65 m/s² × 0.3048 m as whole numbers, so that the quotient is rounded once. */
const LBF_FT_NM = 3_389_544_870_828_501 / 2_500_000_000_000_000
const KGF_M_NM = 9.80665

/** One of the unit is `times / over` N·m: two exact numbers, so that 3 dN·m is 0.3 and not 0.30000000000000004. */
const RATIOS: Record<TorqueUnit, { times: number; over: number }> = {
  N·m: { times: 1, over: 1 },
  N·mm: { times: 1, over: 1000 },
  cN·m: { times: 1, over: 100 },
  dN·m: { times: 1, over: 10 },
  daN·m: { times: 10, over: 1 },
  kN·m: { times: 1000, over: 1 },
  lbf·ft: { times: LBF_FT_NM, over: 1 },
  lbf·in: { times: LBF_FT_NM, over: 12 },
  ozf·in: { times: LBF_FT_NM, over: 12 * 16 },
  kgf·m: { times: KGF_M_NM, over: 1 },
  kgf·cm: { times: KGF_M_NM, over: 100 },
}

/** N·m from a number in any torque unit; relative error of a few 1e-16. */
export function toNm(value: number, unit: TorqueUnit): number {
  const { times, over } = RATIOS[unit]
  return finite((finite(value) * times) / over)
}

/** A number in any torque unit from N·m. */
export function fromNm(nm: number, unit: TorqueUnit): number {
  const { times, over } = RATIOS[unit]
  return finite((finite(nm) * over) / times)
}

/**
 * Whole micro-newton-metres: what bands are compared in, so that a reading exactly on a limit is in,
 * whatever a float made of 22 × 1.1. Exact to 9·10⁹ N·m.
 */
export function toMicroNm(nm: number): number {
  return Math.round(finite(nm) * 1e6) + 0 // + 0 makes −0 a 0
}

/** Negative, zero or positive as `a` is below, equal to or above `b`, both N·m, to the micro-newton-metre. */
export function compareNm(a: number, b: number): number {
  return toMicroNm(a) - toMicroNm(b)
}

/** A number that is none is a bug of the caller, never a person's entry: those are refused before. */
export function finite(value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`A torque must be a finite number, not ${value}`)
  return value
}
