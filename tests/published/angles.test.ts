/** Angles, turns and rules on reuse against published or separately reckoned figures. */
import { describe, expect, test } from 'vitest'
import { anglePreload, checkStretch, turnOfNut } from '../../shared/fastener'
import { isRefusal } from '../../shared/log'
import { ANGLES, REUSE_RULES, TURNS } from './data/angles'

function answered<T>(value: T): Exclude<T, { refused: string }> {
  if (isRefusal(value)) throw new Error(JSON.stringify(value))
  return value as Exclude<T, { refused: string }>
}

describe('preload from an angle', () => {
  // Reckoned there from an area rounded to three decimals: 0.01 %.
  test.each(ANGLES)('[FT14] M$dMm, $angleDeg° from $snugN N (computed)', (row) => {
    const found = answered(
      anglePreload({
        thread: `M${row.dMm}x${row.pitchMm}`,
        grade: '10.9',
        shankMm: row.shankMm,
        threadMm: row.threadMm,
        jointToBoltStiffness: row.ratio,
        angleDeg: row.angleDeg,
        snugN: row.snugN,
      }),
    )
    expect(found.boltStiffnessNPerMm / row.stiffness).toBeCloseTo(1, 4)
    expect(found.addedN / row.addedN).toBeCloseTo(1, 4)
    expect(found.elasticN / row.totalN).toBeCloseTo(1, 4)
    expect((found.yieldN ?? 0) / row.yieldN).toBeCloseTo(1, 4)
    expect(found.elastic).toBe(row.elastic)
    expect(found.preloadN).toBe(row.elastic ? found.elasticN : found.yieldN)
    expect(found.cautions.includes('past_yield')).toBe(!row.elastic)
  })
})

describe('turn of nut', () => {
  test.each(TURNS)(
    '[FT14] %d in, %d to %d in: %s turn (found)',
    (d, over, upto, turn, degrees, toleranceDeg) => {
      for (const length of [over === 0 ? upto / 2 : over + 0.01, upto]) {
        const found = answered(turnOfNut(d * 25.4, length * 25.4))
        expect(found).toMatchObject({ turn, angleDeg: degrees, toleranceDeg })
      }
    },
  )
  test('[FT14] beyond the table it is refused', () => {
    expect(turnOfNut(12.7, 12.1 * 12.7)).toMatchObject({ refused: 'turn_outside_table' })
  })
})

describe('reuse as makers print it', () => {
  const [neck, torque] = REUSE_RULES
  test.each(REUSE_RULES)(
    '[FT14] $source: its stages add up to $totalAngleDeg°, and so does what they stretch',
    (row) => {
      const added = (angleDeg: number) =>
        answered(
          anglePreload({
            thread: 'M10',
            shankMm: 80,
            threadMm: 20,
            jointToBoltStiffness: 4,
            angleDeg,
            snugN: 0,
          }),
        ).addedN
      const stages = row.anglesDeg.map(added).reduce((sum, n) => sum + n, 0)
      expect(stages).toBeCloseTo(added(row.totalAngleDeg), 6)
    },
  )
  test(`[FT15] ${neck.source}: up to ${neck.maxDifferenceMm} mm between two diameters`, () => {
    const at = (lowerMm: number) =>
      answered(checkStretch({ by: 'neck', upperMm: 10.95, lowerMm, maxDifferenceMm: neck.maxDifferenceMm }))
    expect(at(10.7)).toMatchObject({ reusable: true, margin: 0 })
    expect(at(10.69)).toMatchObject({ reusable: false, margin: -0.01 })
  })
  test(`[FT15] ${torque.source}: a bolt that takes less than ${torque.minNm} N·m after the turn is rejected`, () => {
    const at = (measuredNm: number) =>
      answered(checkStretch({ by: 'torque_after_turn', measuredNm, minNm: torque.minNm }))
    expect(at(122).reusable).toBe(true)
    expect(at(121.9).reusable).toBe(false)
  })
})
