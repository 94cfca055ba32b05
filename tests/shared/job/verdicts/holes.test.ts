/** The bolt that stands in a hole, judged by what the plan and the register know of both. */
import { describe, expect, test } from 'vitest'
import { againstWords } from '../../../../shared/job/against'
import { fitWords, rightLengths } from '../../../../shared/job/hole-words'
import { proposalJoint, proposeFor } from '../../../../shared/job/proposal'
import { againstRelease } from '../../../../shared/job/release'
import {
  boltFit,
  fastenerFault,
  faultOf,
  holeNow,
  holeRegister,
  longPart,
  stripsFirst,
} from '../../../../shared/job/verdicts'
import { isRefusal } from '../../../../shared/log'
import { indexPlan } from '../../../../shared/plan/read'
import type { AdoptedJoint, TappedHole } from '../../../../shared/plan/types'
import { claim, type Given, hole, place, sign, waive } from '../../../shop/acts'
import { floor } from '../../../shop/given'
import { testShop } from '../../../shop/shop'
import { all, housingSigned } from '../../../shop/stories'
import { START } from '../../../shop/time'
import { words } from '../../../shop/words'

/** The floor's plan with what it knows of the holes of JB: M8 bolts of 30 mm, 18 mm of stack, 16 mm of thread. */
const HOLE = { material: 'cast aluminium', stackMm: 18, depthMm: 20, threadMm: 16 }

function knowing(hole: Partial<TappedHole> = {}, but: Partial<AdoptedJoint> = {}): Given {
  const { plan } = floor().job
  const steps = plan.steps.map((step) => ({
    ...step,
    joints: step.joints.map((joint) =>
      joint.id === 'JB'
        ? { ...joint, thread: 'M8x1.25', grade: '8.8', lengthMm: 30, ...but, hole: { ...HOLE, ...hole } }
        : joint,
    ),
  }))
  return { type: 'PlanAdopted', by: 'sup', doneAt: START, clockOffsetMs: 0, plan: { ...plan, steps } }
}

const at = (position: number, ...happened: Given[]) => {
  const { job } = floor(...happened)
  const joint = indexPlan(job.plan).jointById.get('JB')
  if (!joint) throw new Error('no joint')
  return {
    job,
    joint,
    fault: faultOf(job, joint, position),
    fitOf: (lengthMm?: number) => {
      const found = boltFit(job, joint, position, lengthMm)
      if (!found || isRefusal(found)) throw new Error(`no fit: ${JSON.stringify(found)}`)
      return found
    },
  }
}

const short = {
  condition: 'insert',
  insert: { kind: 'solid', lengthMm: 9, setDownMm: 0.5 },
  threadMm: 12,
} as const

describe('the bolt in its hole', () => {
  test('[HR8] the hole now is the plan’s with the register on top', () => {
    const { job, joint, fitOf } = at(4, knowing(), hole('JB', 4), hole('JB', 4, short))
    expect(holeNow(job, joint, 4)).toEqual({ hole: { ...HOLE, threadMm: 12 }, insert: short.insert })
    expect(holeNow(job, joint, 3)).toEqual({ hole: HOLE })
    expect(fitOf().fit).toMatchObject({ reachMm: 12, clearanceMm: 0, engagementMm: 9 })
    const deeper = at(4, knowing(), hole('JB', 4, { condition: 'worn', threadMm: 24 }))
    expect(holeNow(deeper.job, deeper.joint, 4)?.hole).toMatchObject({ threadMm: 24, depthMm: 24 })
    const shallow = at(4, knowing(), hole('JB', 4, { condition: 'original', depthMm: 11 }))
    expect(holeNow(shallow.job, shallow.joint, 4)?.hole).toMatchObject({ threadMm: 11, depthMm: 11 })
  })
  test('[HR8] where the plan says nothing of the hole, nothing is judged', () => {
    const { job, joint, fault } = at(4, hole('JB', 4, short))
    expect(holeNow(job, joint, 4)).toBeUndefined()
    expect(boltFit(job, joint, 4)).toBeUndefined()
    expect(fault).toBeUndefined()
  })
  test('[HR9] the plan’s bolt that would bottom is told before anything is fitted, and stops the signature', () => {
    const read = [claim('housing'), all('JB', [1, 2, 3, 4, 5, 6, 7, 8], 22)]
    expect(at(4, knowing(), hole('JB', 4, short)).fault).toBe('bottoms_out')
    expect(at(3, knowing(), hole('JB', 4, short)).fault).toBeUndefined()
    floor(knowing(), read, hole('JB', 4, short))
      .when(sign('housing'))
      .refuses('fastener_not_right', { joint: 'JB', position: 4, fault: 'bottoms_out' })
  })
  test('[HR9] the right length, tightened, is signed; too short a one is not; one near the bottom is', () => {
    const signing = (lengthMm: number) =>
      floor(
        knowing(),
        hole('JB', 4, short),
        place('JB', [4], { condition: 'new', lengthMm }),
        claim('housing'),
        all('JB', [1, 2, 3, 4, 5, 6, 7, 8], 22),
      ).when(sign('housing'))
    const fits = at(4, knowing(), hole('JB', 4, short))
    expect(fits.fitOf(28).fit.verdict).toBe('near_bottom')
    expect(fits.fitOf(28).fit.rightLengthsMm).toEqual([])
    signing(28).gives({ type: 'StepSigned' })
    expect(fits.fitOf(25).fit.verdict).toBe('too_short')
    signing(25).refuses('fastener_not_right', { fault: 'too_short' })
    signing(30).refuses('fastener_not_right', { fault: 'bottoms_out' })
  })
  test('[HR10] of the maker’s bolt in the maker’s hole it is judged alone that it bottoms; it holds for what must hold', () => {
    const stubby = { lengthMm: 26 }
    expect(at(1, knowing({}, stubby)).fitOf().fit.engagementMm).toBe(8)
    expect(at(1, knowing({}, stubby)).fault).toBeUndefined()
    expect(at(1, knowing({}, { lengthMm: 60 })).fault).toBe('bottoms_out')
    // 8 mm are the maker's own, less than the 12 of the trade's rule.
    expect(
      at(1, knowing({}, stubby), hole('JB', 1, { condition: 'worn', threadMm: 14 })).fault,
    ).toBeUndefined()
    expect(at(1, knowing({}, stubby), place('JB', [1], { lengthMm: 25 })).fault).toBe('too_short')
    // A stripped or a worn thread of which no size is given is the same hole.
    expect(at(1, knowing({}, stubby), hole('JB', 1, { condition: 'worn' })).fault).toBeUndefined()
  })
  test('[HR10] a bolt that bottoms by the printed lengths stops the signature before it is fitted, until one that fits is', () => {
    const long = knowing({ stackMm: 10, depthMm: 18, threadMm: 18 }, { lengthMm: 32 })
    const read = [claim('housing'), all('JB', [1, 2, 3, 4, 5, 6, 7, 8], 22)]
    expect(at(1, long).fault).toBe('bottoms_out')
    floor(long, read)
      .when(sign('housing'))
      .refuses('fastener_not_right', { joint: 'JB', position: 1, fault: 'bottoms_out' })
    floor(long, place('JB', [1, 2, 3, 4, 5, 6, 7, 8], { condition: 'new', lengthMm: 25 }), read)
      .when(sign('housing'))
      .gives({ type: 'StepSigned' })
  })
  test('[HR10] a thread length that is only assumed stops nothing; a printed one whose shank reaches the hole does', () => {
    const deep = { depthMm: 60, threadMm: 55 }
    const assumed = at(1, knowing(deep, { lengthMm: 50 }))
    expect(assumed.fitOf().fit.assumed).toEqual({ boltThreadMm: 22, follows: 'shank' })
    expect(assumed.fault).toBeUndefined()
    expect(at(1, knowing(deep, { lengthMm: 50, boltThreadMm: 22 })).fault).toBe('bottoms_out')
    expect(at(1, knowing(deep, { lengthMm: 50, boltThreadMm: 50 })).fault).toBeUndefined()
  })
  test('[HR9] one that stands out of its nut by more than its diameter does not fit, if it is not the plan’s', () => {
    const nut = { depthMm: undefined, threadMm: 6.5 } as unknown as TappedHole
    expect(at(1, knowing(nut, { lengthMm: 200 })).fitOf().fit.verdict).toBe('too_long')
    expect(at(1, knowing(nut), place('JB', [1], { condition: 'new', lengthMm: 200 })).fault).toBe('too_long')
  })
  test('[HR10] a stud is reckoned with what of it stands in the nut', () => {
    const stud = knowing({ aboveMm: 10 }, { fastener: 'nut', lengthMm: 40 })
    expect(at(1, stud).fitOf().fit.reachMm).toBe(12)
    expect(longPart(at(1, stud).joint)).toBe('stud')
    expect(longPart(at(1, knowing()).joint)).toBe(at(1).joint.fastener)
  })
  test('[HR9] what is too short never reads as enough, and a length that is told can be cut', () => {
    const near = at(4, knowing({}, { lengthMm: 40 }), place('JB', [4], { condition: 'new', lengthMm: 29.97 }))
    expect(fitWords('bolt', near.fitOf(), words)).toContain(
      '11.97 mm of thread holds (1.5 d), at least 12 mm needed',
    )
    const bottom = at(4, knowing({ threadMm: 17 }), place('JB', [4], { condition: 'new', lengthMm: 32.53 }))
    expect(fitWords('bolt', bottom.fitOf(), words)).toContain('2.47 mm clear, 2.5 mm wanted')
    const wire = { condition: 'insert', insert: { kind: 'wire', lengthMm: 12 } } as const
    const fitted = at(4, knowing({ threadMm: 16.1, depthMm: 22 }), hole('JB', 4, wire))
    const told = /from ([\d.]+) mm to ([\d.]+) mm|longer one to ([\d.]+) mm to ([\d.]+) mm/.exec(
      rightLengths(fitted.fitOf().fit, words),
    )
    const ends = (told ?? []).slice(1).filter(Boolean).map(Number)
    expect(ends).toHaveLength(2)
    for (const end of ends) expect(fitted.fitOf(end).fit.verdict).toBe('good')
  })
  test('[SV10] what is proposed leans on the same fit: a stud’s nut end, a hole too shallow, a bolt that does not reach', () => {
    const leans = (...happened: Given[]) => {
      const { job, joint } = at(1, ...happened)
      return proposalJoint(job, joint, 1, testShop.tolerances)
    }
    expect(leans(knowing()).engagementMm).toBe(12)
    expect(leans(knowing({ aboveMm: 10 }, { fastener: 'nut', lengthMm: 40 })).engagementMm).toBe(12)
    expect(leans(knowing(), hole('JB', 4, { condition: 'original', depthMm: 11 }))).toMatchObject({
      engagementMm: 11,
      bottoms: { lengthMm: 30, roomMm: 29 },
    })
    expect(leans(knowing(), place('JB', [4], { condition: 'new', lengthMm: 16 })).engagementMm).toBe(0)
    const tooLong = { condition: 'insert', insert: { kind: 'wire', lengthMm: 24 } } as const
    expect(leans(knowing(), hole('JB', 4, tooLong)).fault).toMatchObject({
      refused: 'insert_longer_than_hole',
    })
    const { job, joint } = at(1, knowing(), hole('JB', 4, tooLong))
    expect(proposeFor(job, joint, 1, testShop.tolerances)).toMatchObject({
      refusals: expect.arrayContaining([expect.objectContaining({ refused: 'insert_longer_than_hole' })]),
    })
  })
  test('[HR16] a repair that cannot be as it was recorded is not taken for right', () => {
    const tooLong = { condition: 'insert', insert: { kind: 'wire', lengthMm: 24 } } as const
    const fault = (...happened: Given[]) => {
      const { job, joint } = at(1, ...happened)
      return faultOf(job, joint, 4)
    }
    expect(fault(knowing(), hole('JB', 4, tooLong))).toBe('hole_impossible')
    const mended = hole('JB', 4, { ...tooLong, insert: { kind: 'wire', lengthMm: 12 } })
    expect(fault(knowing(), hole('JB', 4, tooLong), mended)).not.toBe('hole_impossible')
    expect(fault(knowing())).toBeUndefined()
  })
  test('[HR11] a supervisor may accept it; it proves nothing', () => {
    const what = { kind: 'fastener', jointId: 'JB', position: 4 } as const
    floor(
      knowing(),
      claim('housing'),
      all('JB', [1, 2, 3, 4, 5, 6, 7, 8], 22),
      hole('JB', 4, short),
      waive(what),
    )
      .when(sign('housing'))
      .gives({ type: 'StepSigned' })
    const { job, joint } = at(4, knowing(), hole('JB', 4, short), waive(what))
    expect(faultOf(job, joint, 4)).toBe('bottoms_out')
    expect(fastenerFault(job, joint, 4)).toBeUndefined()
  })
  test('[HR12] recorded anew, what was accepted lapses', () => {
    const what = { kind: 'fastener', jointId: 'JB', position: 4 } as const
    const { job, joint } = at(4, knowing(), hole('JB', 4, short), waive(what), hole('JB', 4))
    expect(fastenerFault(job, joint, 4)).toBe('hole_stripped')
    expect(job.waivers[0]?.lapsed).toBeDefined()
  })
  test('[HR12] measured too shallow for the bolt that stands there, what was signed lapses', () => {
    floor(knowing(), housingSigned())
      .when(hole('JB', 4, { condition: 'original', depthMm: 11 }))
      .gives({ type: 'HoleRecorded' }, { type: 'SignaturesLapsed', because: 'hole' })
    floor(knowing(), housingSigned())
      .when(hole('JB', 4, { condition: 'original', depthMm: 19 }))
      .gives({ type: 'HoleRecorded' })
  })
  test('[HR13] which gives first is said where everything is known', () => {
    const made = at(1, knowing())
    expect(stripsFirst(made.joint, made.fitOf())?.weakest).toBe('hole_thread')
    const solidIn = at(4, knowing(), hole('JB', 4, short))
    expect(stripsFirst(solidIn.joint, solidIn.fitOf(28))).toBeUndefined()
    const insert = { ...short.insert, outerThread: 'M12x1.5' }
    const named = at(4, knowing({ material: 'steel, Rm 500' }), hole('JB', 4, { ...short, insert }))
    expect(stripsFirst(named.joint, named.fitOf(28))?.weakest).toBe('bolt')
    const bronze = at(1, knowing({ material: 'something' }))
    expect(stripsFirst(bronze.joint, bronze.fitOf())).toBeUndefined()
  })
  test('[HR15] stripped or not fitting, it stands against a release by itself', () => {
    const against = (...happened: Given[]) =>
      againstRelease(floor(...happened).job, 'to_fitting', START).filter(({ code }) => code === 'hole_wrong')
    const what = { kind: 'fastener', jointId: 'JB', position: 4 } as const
    expect(against(knowing())).toEqual([])
    expect(against(knowing(), hole('JB', 4, short), hole('JB', 2))).toMatchObject([
      { joint: 'JB', position: 2, fault: 'hole_stripped' },
      { joint: 'JB', position: 4, fault: 'bottoms_out' },
    ])
    const [one] = against(knowing(), hole('JB', 4, short))
    expect(one && againstWords(one, words)).toMatch(
      /JB, hole 4: it reaches the bottom of its hole before it clamps\. Fit one of the right length/,
    )
    expect(against(knowing(), hole('JB', 4, short), waive(what))).toEqual([])
  })
  test('[HR14] the register has every place that was spoken of, with all that was', () => {
    const { job } = at(
      4,
      knowing(),
      hole('JB', 6),
      hole('JB', 4),
      hole('JB', 4, short),
      place('JB', [2], { lengthMm: 28 }),
    )
    expect(holeRegister(job).map(({ position, entries }) => [position, entries.length])).toEqual([
      [2, 0],
      [4, 2],
      [6, 1],
    ])
  })
  test('[HR9] said in words, with the lengths that are right', () => {
    const { fitOf } = at(4, knowing(), hole('JB', 4, short))
    expect(fitWords('bolt', fitOf(), words)).toBe(
      'The bolt of 30 mm bottoms out: it would show its torque and clamp nothing.',
    )
    expect(fitWords('bolt', fitOf(31), words)).toContain('bottoms out, 1 mm too long')
    expect(fitWords('bolt', fitOf(28), words)).toBe(
      'The bolt of 28 mm comes near the bottom: 2 mm clear, 2.5 mm wanted. 9 mm of thread holds (1.1 d).',
    )
    expect(rightLengths(fitOf().fit, words)).toMatch(/^No /)
    const wire = at(
      4,
      knowing(),
      hole('JB', 4, { condition: 'insert', insert: { kind: 'wire', lengthMm: 8 } }),
    )
    expect(rightLengths(wire.fitOf().fit, words)).toMatch(/^Right here: /)
  })
})
