import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  engagement,
  HOLE_MATERIALS,
  holeFit,
  holeMaterial,
  type InsertGiven,
  insertPlan,
  limits,
  standardThreadMm,
  thread,
} from '../../../shared/fastener'
import { answered, refusedAs } from './answered'

const stud = { thread: 'M8', boltGrade: '8.8', holeMaterial: 'cast_aluminium', engagementMm: 12 }

describe('limits of other sizes', () => {
  // ISO 965-2, from memory: least major and pitch diameter 6g, greatest minor and pitch diameter 6H, to a micrometre.
  test.each([
    ['M3', 2.874, 2.58, 2.599, 2.775],
    ['M4', 3.838, 3.433, 3.422, 3.663],
    ['M6', 5.794, 5.212, 5.153, 5.5],
    ['M14', 13.682, 12.503, 12.21, 12.913],
    ['M30', 29.522, 27.462, 26.771, 28.007],
    ['M36', 35.465, 33.118, 32.27, 33.702],
    ['M48', 47.399, 44.431, 43.297, 45.087],
  ])('[FT10] %s (from memory)', (name, dMin, d2Min, D1Max, D2Max) => {
    const size = limits(answered(thread(name)))
    expect(
      [size.dMinMm, size.d2MinMm, size.D1MaxMm, size.D2MaxMm].map((mm) => Math.round(mm * 1000) / 1000),
    ).toEqual([dMin, d2Min, D1Max, D2Max])
  })
  // ASME B1.1, from memory, inches: 2A least major and pitch, 2B greatest minor (three figures for large ones) and pitch.
  test.each([
    ['1/4-20 UNC', 0.2408, 0.2127, 0.207, 0.2224],
    ['3/8-16 UNC', 0.3643, 0.3287, 0.321, 0.3401],
    ['5/16-18 UNC', 0.3026, 0.2712, 0.265, 0.2817],
    ['1/4-28 UNF', 0.2425, 0.2225, 0.22, 0.2311],
  ])('[FT10] %s (from memory)', (name, dMin, d2Min, D1Max, D2Max) => {
    const size = limits(answered(thread(name)))
    expect(Math.abs(size.dMinMm / 25.4 - dMin)).toBeLessThanOrEqual(0.0001)
    expect(Math.abs(size.d2MinMm / 25.4 - d2Min)).toBeLessThanOrEqual(0.0001)
    expect(Math.abs(size.D1MaxMm / 25.4 - D1Max)).toBeLessThanOrEqual(0.0006)
    expect(Math.abs(size.D2MaxMm / 25.4 - D2Max)).toBeLessThanOrEqual(0.0001)
  })
})

describe('engagement', () => {
  test('[FT11] an M8 8.8 strips 12 mm of cast aluminium before it breaks, and needs a little more', () => {
    const found = answered(engagement(stud))
    expect(found).toMatchObject({ weakest: 'hole_thread', boltBreaksFirst: false })
    expect(found.weakestN).toBe(found.holeStripN)
    expect(found.lengthForBoltFirstMm).toBeGreaterThan(12)
    const longer = answered(engagement({ ...stud, engagementMm: found.lengthForBoltFirstMm + 0.001 }))
    expect(longer).toMatchObject({ weakest: 'bolt', boltBreaksFirst: true })
    expect(found.lengthForStrongBoltMm / found.lengthForBoltFirstMm).toBeCloseTo(1.2, 12)
  })
  test('[FT11] a soft bolt in steel fails by itself; a weak thread of the bolt can be the one', () => {
    expect(answered(engagement({ ...stud, boltGrade: '4.6', holeMaterial: 'steel_700' })).weakest).toBe(
      'bolt',
    )
    expect(
      answered(engagement({ ...stud, boltGrade: '4.6', holeMaterial: 'steel_700', engagementMm: 3 })).weakest,
    ).toBe('bolt_thread')
  })
  test('[FT11] the stronger the hole, the shorter the length', () => {
    const lengthIn = (material: string) =>
      answered(engagement({ ...stud, holeMaterial: material })).lengthForBoltFirstMm
    expect(lengthIn('ductile iron')).toBeLessThan(lengthIn('wrought aluminium'))
    expect(lengthIn('wrought aluminium')).toBeLessThan(lengthIn('cast aluminium'))
  })
  test.each([
    ['cast iron', 'cast_iron'],
    ['Grey iron', 'cast_iron'],
    ['nodular iron', 'ductile_iron'],
    ['cast aluminum', 'cast_aluminium'],
    ['aluminium, cast', 'cast_aluminium'],
    ['wrought_aluminium', 'wrought_aluminium'],
    ['steel', 'steel'],
    ['Bronze', 'bronze'],
  ])('[FT11] “%s” is %s', (text, id) => {
    expect(answered(holeMaterial(text))).toMatchObject({ id })
  })
  test('[FT11] unknown material is refused; figures of one’s own are taken', () => {
    expect(refusedAs(engagement({ ...stud, holeMaterial: 'cheese' }))).toBe('material_unknown')
    expect(refusedAs(engagement({ ...stud, holeMaterial: 'aluminium' }))).toBe('material_unclear')
    expect(answered(holeMaterial({ shearMPa: 130 })).shearMPa).toBe(130)
    expect(answered(holeMaterial({ rmMPa: 200, shearRatio: 0.7 })).shearMPa).toBeCloseTo(140, 12)
    for (const material of HOLE_MATERIALS) expect(holeMaterial(material)).toBe(material)
  })
  test('[FT11] refused from the first that is wrong', () => {
    expect(refusedAs(engagement({ ...stud, engagementMm: 0 }))).toBe('number_impossible')
    expect(refusedAs(engagement({ ...stud, thread: 'G1/8' }))).toBe('thread_other_form')
    expect(refusedAs(engagement({ ...stud, boltGrade: 'brass' }))).toBe('grade_without_formula')
  })
  test('[FT11] more length bears more, to the same share, until the bolt gives', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('M3', 'M8x1', 'M10', 'M27', '#8-32', '1/2-13'),
        fc.constantFrom(...HOLE_MATERIALS.map(({ id }) => id)),
        fc.double({ min: 0.5, max: 100, noNaN: true }),
        fc.double({ min: 1.001, max: 5, noNaN: true }),
        (name, material, engagementMm, times) => {
          const at = (mm: number) =>
            answered(engagement({ thread: name, boltGrade: '8.8', holeMaterial: material, engagementMm: mm }))
          const [short, long] = [at(engagementMm), at(engagementMm * times)]
          expect(long.boltStripN / short.boltStripN).toBeCloseTo(times, 9)
          expect(long.holeStripN / short.holeStripN).toBeCloseTo(times, 9)
          expect(long.weakestN).toBeGreaterThanOrEqual(short.weakestN)
          expect(long.weakestN).toBeLessThanOrEqual(long.boltBreakN)
        },
      ),
    )
  })
})

describe('inserts', () => {
  test('[FT12] an insert takes from the engagement what it does not hold, and widens the hole’s thread', () => {
    const bare = answered(engagement({ ...stud, engagementMm: 16 }))
    const renewed = answered(
      engagement({ ...stud, engagementMm: 16, insert: { kind: 'wire', lengthD: 1.5 } }),
    )
    expect(renewed.usableMm).toBeCloseTo(12 - 0.75 * 1.25, 12)
    expect(renewed.holeShearMm2 / renewed.usableMm).toBeGreaterThan(bare.holeShearMm2 / bare.usableMm)
    expect(renewed.cautions).toContain('insert_maker')
  })
  test('[FT12] a solid insert holds by its outer thread, or by its maker’s pull-out load', () => {
    const solid = { kind: 'solid', lengthMm: 14 } as const
    expect(refusedAs(engagement({ ...stud, insert: solid }))).toBe('insert_outer_thread_needed')
    expect(refusedAs(insertPlan('M8', { ...solid, outerThread: 'M8x1' }))).toBe('insert_outer_thread_small')
    const held = answered(engagement({ ...stud, insert: { ...solid, outerThread: 'M12x1.5' } }))
    expect(held.insert?.tapped.majorMinMm).toBe(12)
    expect(
      answered(engagement({ ...stud, insert: { ...solid, outerThread: 'M12x1.5', pullOutN: 9000 } })),
    ).toMatchObject({
      holeStripN: 9000,
      weakest: 'hole_thread',
    })
  })
  test('[FT12] of a coil only the turns the bolt loads bear; a bush bears whole', () => {
    const at = (engagementMm: number, insert: InsertGiven) =>
      answered(engagement({ ...stud, engagementMm, insert })).holeStripN
    const wire = { kind: 'wire', lengthD: 2 } as const
    expect(at(4, wire)).toBeCloseTo(at(8, wire) / 2, 6)
    expect(at(14, wire)).toBeLessThan(at(15, wire))
    expect(at(40, wire)).toBe(at(16, wire))
    const bush = { kind: 'solid', lengthMm: 14, outerThread: 'M12x1.5' } as const
    expect(at(4, bush)).toBe(at(14, bush))
  })
  test('[FT12] an insert too short for the bolt to break first is said', () => {
    const at = (lengthD: number) =>
      answered(engagement({ ...stud, boltGrade: '12.9', insert: { kind: 'wire', lengthD } })).cautions
    expect(at(1)).toContain('insert_short')
    expect(at(3)).not.toContain('insert_short')
  })
  test('[FT12] what is no insert is refused', () => {
    expect(refusedAs(insertPlan('M8', { kind: 'glue' } as never))).toBe('insert_unknown')
    expect(refusedAs(insertPlan('M8', { kind: 'wire', lengthMm: 0.5 }))).toBe('number_impossible')
  })
})

describe('a bolt in its hole', () => {
  const hole = { stackMm: 20, washerMm: 0, holeDepthMm: 30, threadDepthMm: 25, thread: 'M8' }
  const inHole = (boltLengthMm: number) => answered(holeFit({ ...hole, boltLengthMm }))

  test('[FT13] four verdicts along one hole', () => {
    expect(inHole(30).verdict).toBe('too_short')
    expect(inHole(32).verdict).toBe('good')
    expect(inHole(42.5).verdict).toBe('good')
    expect(inHole(43).verdict).toBe('near_bottom')
    expect(inHole(45).verdict).toBe('bottoms_out')
    expect(inHole(60)).toMatchObject({ verdict: 'bottoms_out', clearanceMm: -15 })
    expect(inHole(10)).toMatchObject({ verdict: 'too_short', engagementMm: 0, reachMm: -10 })
  })
  test('[FT13] the right lengths are the standard ones that are good', () => {
    const { rightLengthsMm, shortestMm, longestMm } = inHole(30)
    expect([shortestMm, longestMm]).toEqual([32, 42.5])
    expect(rightLengthsMm).toEqual([35, 40])
    for (const mm of rightLengthsMm) expect(inHole(mm).verdict).toBe('good')
    expect(answered(holeFit({ ...hole, boltLengthMm: 30, threadDepthMm: 10 })).rightLengthsMm).toEqual([])
  })
  test('[FT12] a solid insert whose outer thread nobody gave has a fit, and no strip load', () => {
    const bare = { kind: 'solid', lengthMm: 12, setDownMm: 0.5 } as const
    const at = answered(holeFit({ ...hole, boltLengthMm: 40, insert: bare }))
    const named = answered(
      holeFit({ ...hole, boltLengthMm: 40, insert: { ...bare, outerThread: 'M14x1.5' } }),
    )
    expect(at.engagementMm).toBe(named.engagementMm)
    expect(at.verdict).toBe(named.verdict)
    expect(at.cautions).toContain('insert_maker')
    expect(refusedAs(insertPlan('M10', bare))).toBe('insert_outer_thread_needed')
    expect(refusedAs(holeFit({ ...hole, boltLengthMm: 40, insert: { ...bare, lengthMm: -1 } }))).toBe(
      'number_impossible',
    )
  })
  test('[FT13] an insert begins below the face and holds only its length', () => {
    const at = answered(holeFit({ ...hole, boltLengthMm: 40, insert: { kind: 'wire', lengthD: 2 } }))
    expect(at.reachMm).toBe(20)
    expect(at.engagementMm).toBeCloseTo(Math.min(20 - 1.5 * 1.25, 16 - 0.75 * 1.25), 12)
    expect(at.verdict).toBe('good')
    expect(
      refusedAs(
        holeFit({ ...hole, threadDepthMm: 12, boltLengthMm: 40, insert: { kind: 'wire', lengthD: 2 } }),
      ),
    ).toBe('insert_longer_than_hole')
  })
  test('[FT13] with grade and material the least engagement is proven, not the rule', () => {
    const soft = { ...hole, boltLengthMm: 32, boltGrade: '10.9', holeMaterial: 'cast aluminium' }
    const proven = answered(holeFit(soft))
    expect(proven.minEngagementMm).toBe(
      answered(engagement({ ...stud, boltGrade: '10.9' })).lengthForBoltFirstMm,
    )
    expect(proven.verdict).toBe('too_short')
    expect(proven.cautions).not.toContain('engagement_rule')
    const renewed = answered(holeFit({ ...soft, boltLengthMm: 35, insert: 'wire' }))
    expect(renewed.minEngagementMm).toBeLessThan(proven.minEngagementMm)
    const around = answered(engagement({ ...stud, boltGrade: '10.9', insert: 'wire' }))
    expect(renewed.minEngagementMm).toBe(around.lengthForBoltFirstMm)
    expect(around.lengthForHoleThreadMm).toBeGreaterThan(around.lengthForBoltThreadMm)
    expect(refusedAs(holeFit({ ...soft, holeMaterial: 'cheese' }))).toBe('material_unknown')
  })
  test('[FT13] a shank that reaches the thread bottoms there', () => {
    const at = answered(holeFit({ ...hole, boltLengthMm: 40, boltThreadMm: 15 }))
    expect(at.verdict).toBe('bottoms_out')
    expect(at.cautions).toContain('shank_in_hole')
    expect(answered(holeFit({ ...hole, boltLengthMm: 40, boltThreadMm: 20 })).verdict).toBe('good')
  })
  test('[FT13] a through hole does not bottom; a nut is filled and shows a thread', () => {
    const nut = { stackMm: 20, holeDepthMm: 6.8, threadDepthMm: 6.8, thread: 'M8', through: true }
    const on = (boltLengthMm: number) => answered(holeFit({ ...nut, boltLengthMm }))
    expect(on(26)).toMatchObject({ verdict: 'too_short', engagementMm: 6 })
    expect(on(28).verdict).toBe('too_short')
    expect(on(30)).toMatchObject({ verdict: 'good', engagementMm: 6.8, rightLengthsMm: [30] })
    expect(on(34).verdict).toBe('good')
    // More than a diameter stands out: 50 − 20 − 6.8.
    expect(on(50).verdict).toBe('too_long')
    expect(on(200).verdict).toBe('too_long')
    expect(on(30).cautions).toContain('protrudes')
    const deep = answered(holeFit({ ...nut, threadDepthMm: 25, holeDepthMm: 25, boltLengthMm: 34 }))
    expect(deep).toMatchObject({ verdict: 'good', engagementMm: 14, shortestMm: 32 })
  })
  test.each([
    [40, 22],
    [125, 22],
    [130, 28],
    [200, 28],
    [220, 41],
    [30, 30],
  ])('[FT23] an M8 bolt of %d mm is threaded %d mm by the standard', (lengthMm, threadMm) => {
    expect(standardThreadMm({ dMm: 8, system: 'metric' }, lengthMm)).toBe(threadMm)
  })
  test('[FT23] where its own thread is not given, what would follow is told and no verdict made of it', () => {
    const long = { stackMm: 20, threadDepthMm: 50, holeDepthMm: 55, thread: 'M8' }
    const on = (boltLengthMm: number) => answered(holeFit({ ...long, boltLengthMm }))
    expect(on(60)).toMatchObject({ verdict: 'good', assumed: { boltThreadMm: 22, follows: 'shank' } })
    expect(on(60).cautions).toContain('thread_length_assumed')
    expect(on(60).basis).toContain('bolt_thread')
    // Up to 2.5 P further than the stack it is the incomplete threads that reach the hole.
    expect(on(45).assumed).toEqual({ boltThreadMm: 22, follows: 'run_out' })
    expect(on(40).assumed).toEqual({ boltThreadMm: 22 })
    // Only lengths whose thread begins within the stack are right; threaded to its head, all that hold and clear.
    expect(on(60).rightLengthsMm).toEqual([35, 40])
    const whole = answered(holeFit({ ...long, boltLengthMm: 60, boltThreadMm: 60 }))
    expect(whole).toMatchObject({ verdict: 'good', rightLengthsMm: [35, 40, 45, 50, 55, 60, 65] })
    expect(whole.assumed).toBeUndefined()
    expect(answered(holeFit({ ...long, boltLengthMm: 60, boltThreadMm: 22 })).verdict).toBe('bottoms_out')
  })
  test('[FT13] impossible measures are refused', () => {
    expect(refusedAs(holeFit({ ...hole, boltLengthMm: 40, holeDepthMm: 20 }))).toBe('thread_deeper_than_hole')
    expect(refusedAs(holeFit({ ...hole, boltLengthMm: -40 }))).toBe('number_impossible')
    expect(refusedAs(holeFit({ ...hole, boltLengthMm: 40, washerMm: Number.NaN }))).toBe('number_impossible')
  })
})
