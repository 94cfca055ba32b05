/**
 * Adoption: the plan as one job will be judged by it, from that day on.
 *
 * Every torque and angle pass gets its band here and keeps it: a later change of the shop's tolerances, or
 * a later edition of the plan, moves no reading that was in band out of it. Limits of the maker come
 * before those of the plan (`limits.from` says whose they are), and the shop's own only where both are silent.
 */
import { toMicroNm } from '../units'
import type { AdoptedPlan, Band, Joint, Pass, Plan, Tolerances } from './types'

export function adopt(plan: Plan, tolerances: Tolerances): AdoptedPlan {
  return {
    ...plan,
    steps: plan.steps.map((step) => ({
      ...step,
      joints: step.joints.map((joint) => ({
        ...joint,
        bands: joint.passes.map((pass) => bandOf(pass, joint, tolerances)),
      })),
    })),
  }
}

/**
 * The band a pass is judged by: limits where given, else the shop's percentage of the torque by joint
 * class, else the shop's degrees either side. `null` where nothing is judged: a slackening, a wait, a
 * torque without a published value.
 */
export function bandOf(pass: Pass, joint: Pick<Joint, 'class'>, tolerances: Tolerances): Band | null {
  if (pass.kind === 'torque') {
    if (pass.torqueNm === null) return null
    if (pass.limits) return { kind: 'torque', ...pass.limits }
    const give = (pass.torqueNm * tolerances.percent[joint.class]) / 100
    return {
      kind: 'torque',
      minNm: toMicroNm(pass.torqueNm - give) / 1e6,
      maxNm: toMicroNm(pass.torqueNm + give) / 1e6,
      from: 'shop',
    }
  }
  if (pass.kind === 'angle') {
    if (pass.limits) return { kind: 'angle', ...pass.limits }
    return {
      kind: 'angle',
      minDeg: toMicroDeg(Math.max(0, pass.angleDeg - tolerances.angleDeg)) / 1e6,
      maxDeg: toMicroDeg(pass.angleDeg + tolerances.angleDeg) / 1e6,
      from: 'shop',
    }
  }
  return null
}

/** Both limits are in. Torque (N·m) is compared in whole µN·m, an angle in whole micro-degrees. */
export function inBand(value: number, band: Band): boolean {
  if (band.kind === 'torque') {
    const read = toMicroNm(value)
    return read >= toMicroNm(band.minNm) && read <= toMicroNm(band.maxNm)
  }
  const read = toMicroDeg(value)
  return read >= toMicroDeg(band.minDeg) && read <= toMicroDeg(band.maxDeg)
}

export function toMicroDeg(deg: number): number {
  if (!Number.isFinite(deg)) throw new RangeError(`An angle must be a finite number, not ${deg}`)
  return Math.round(deg * 1e6)
}
