/**
 * What a plan file's layout cannot say by itself: that every name it uses exists, that the steps can be
 * done in some order, that limits lie around their value, that its fasteners can bear what it asks (`fasteners.ts`).
 *
 * A fault makes the plan unusable. A caution may be meant so, but the author should look: above all a step
 * that hides a joint without needing the step that tightens it.
 */
import { exact, type Figures } from '../words'
import { type AtHand, checkFasteners } from './fasteners'
import { checkOrder, needCycles, type PlanCaution } from './order'
import { type Path, type PlanFault, placeName, type Report } from './place'
import { indexPlan, positionsOf, STEP_SET } from './read'
import type { Fasteners, Joint, Pass, Plan, PlanStep } from './types'

/** With what a shop has at hand, also whether its wrenches can do their passes and the pages of printed values are there. */
export function checkPlan(
  plan: Plan,
  figures: Figures,
  atHand: AtHand = {},
): { faults: PlanFault[]; cautions: PlanCaution[] } {
  const faults: PlanFault[] = []
  const fault: Report = (path, problem, fix, more) =>
    faults.push({ path: placeName(plan, path), problem, fix, ...more })

  twice(plan.stages, ['stages'], fault)
  twice(plan.steps, ['steps'], fault)
  const seen = new Map<string, string>()
  plan.steps.forEach((step, i) => {
    step.joints.forEach((joint, k) => {
      const before = seen.get(joint.id)
      if (before !== undefined)
        fault(
          ['steps', i, 'joints', k, 'id'],
          `${joint.id} is already a joint of ${before}`,
          'Give each joint its own id.',
        )
      seen.set(joint.id, step.id)
    })
    checkStep(plan, step, ['steps', i], fault, figures)
  })
  for (const cycle of needCycles(plan)) {
    const first = plan.steps.findIndex((step) => step.id === cycle[0])
    fault(
      ['steps', first, 'needs'],
      `${cycle.join(' comes after ')}: none of them can begin`,
      'Take one of these out.',
    )
  }
  const cautions: PlanCaution[] = []
  const caution = (index: number, path: Path, problem: string, fix: string) =>
    cautions.push({ path: placeName(plan, path), problem, fix, step: plan.steps[index]?.id ?? '' })
  checkFasteners(plan, { fault, caution }, figures, atHand)
  return { faults, cautions: [...cautions, ...checkOrder(plan, fault)] }
}

function checkStep(plan: Plan, step: PlanStep, path: Path, fault: Report, figures: Figures): void {
  const { stageById, stepById, jointById, stepOfJoint } = indexPlan(plan)
  const stepsExist = (ids: readonly string[], at: Path) =>
    ids.forEach((id, i) => {
      if (!stepById.has(id))
        fault([...at, i], `There is no step ${id}`, 'Name a step of this plan, or take it out.')
      else if (id === step.id) fault([...at, i], `${id} names itself`, 'Take it out.')
    })
  const fastenersExist = (some: readonly Fasteners[], at: Path) =>
    some.forEach((entry, i) => {
      const joint = jointById.get(entry.joint)
      if (!joint) {
        fault(
          [...at, i, 'joint'],
          `There is no joint ${entry.joint}`,
          'Name a joint of this plan, or take it out.',
        )
        return
      }
      const numbers = positionsOf({ joint: joint.id }, joint)
      const strange = (entry.positions ?? []).filter((n) => !numbers.includes(n))
      if (strange.length > 0)
        fault(
          [...at, i, 'positions'],
          `${joint.id} has no position ${strange.join(', ')}`,
          `It has ${numbers.join(', ')}.`,
        )
    })

  if (!stageById.has(step.stage))
    fault(
      [...path, 'stage'],
      `There is no stage ${step.stage}`,
      `Name one of: ${[...stageById.keys()].join(', ')}.`,
    )
  stepsExist(step.needs, [...path, 'needs'])
  fastenersExist(step.hides, [...path, 'hides'])
  step.hides.forEach(({ joint }, i) => {
    if (stepOfJoint.get(joint)?.id === step.id)
      fault(
        [...path, 'hides', i],
        `${step.id} covers ${joint}, a joint of its own`,
        'Name only joints of earlier steps.',
      )
  })
  const { low, likely, high } = step.minutes
  if (low > likely || likely > high)
    fault(
      [...path, 'minutes'],
      `${exact(low, figures)}, ${exact(likely, figures)}, ${exact(high, figures)} min do not rise`,
      'Write the shortest, the likely and the longest, in this order.',
    )
  checkSets(step, path, fault)
  step.sets?.forEach((set, i) => {
    fastenersExist(set.covers, [...path, 'sets', i, 'covers'])
  })
  if (step.sealant) stepsExist(step.sealant.before, [...path, 'sealant', 'before'])
  twice(step.gates, [...path, 'gates'], fault)
  step.gates.forEach((gate, i) => {
    const at = [...path, 'gates', i]
    if (gate.kind === 'proven') fastenersExist(gate.covers, [...at, 'covers'])
    if (gate.kind !== 'cured') return
    stepsExist(gate.steps, [...at, 'steps'])
    for (const id of gate.steps)
      if (stepById.has(id) && !stepById.get(id)?.sealant)
        fault(
          [...at, 'steps'],
          `${id} lays no sealant that could cure`,
          'Name the steps that have a sealant.',
        )
  })
  twice(step.measurements, [...path, 'measurements'], fault)
  step.measurements.forEach(({ min, max, places }, i) => {
    const at = [...path, 'measurements', i]
    if (min !== undefined && max !== undefined && min > max)
      fault(
        at,
        `${exact(min, figures)} to ${exact(max, figures)} is not a band`,
        'Write the lowest below the highest.',
      )
    if (new Set(places).size < places.length)
      fault([...at, 'places'], 'A place is named twice', 'Give each place its own name.')
  })
  step.joints.forEach((joint, i) => {
    checkJoint(plan, joint, [...path, 'joints', i], fault, figures)
  })
}

function checkJoint(plan: Plan, joint: Joint, path: Path, fault: Report, figures: Figures): void {
  const { jointById } = indexPlan(plan)
  const numbers = positionsOf({ joint: joint.id }, joint)
  const known = new Set(numbers)
  if (known.size < numbers.length)
    fault([...path, 'positions'], 'A position number is used twice', 'Number each fastener once.')
  if (joint.order && (joint.order.length !== known.size || !joint.order.every((n) => known.delete(n))))
    fault([...path, 'order'], 'The order is not each position once', `Order these: ${numbers.join(', ')}.`)
  joint.passes.forEach((pass, i) => {
    checkPass(pass, [...path, 'passes', i], fault, figures)
  })
  if (joint.passes.some((pass) => pass.kind === 'angle') && !joint.interruption.afterAngle)
    fault(
      [...path, 'interruption'],
      'It does not say what to do after an angle',
      'Say what to do when it is interrupted once an angle is turned.',
      { inFile: 'Add "afterAngle": "new_fasteners" or "slacken_restart_joint".' },
    )
  if (joint.recheckOf !== undefined) {
    const first = jointById.get(joint.recheckOf)
    const strange = first ? numbers.filter((n) => !positionsOf({ joint: first.id }, first).includes(n)) : []
    if (!first || first === joint || first.recheckOf !== undefined)
      fault(
        [...path, 'recheckOf'],
        `${joint.recheckOf} is not a joint to look at again`,
        'Name the joint these fasteners were fitted in.',
      )
    else if (strange.length > 0)
      fault(
        [...path, 'positions'],
        `${first.id} has no position ${strange.join(', ')}`,
        'Use the numbers of the joint looked at again.',
      )
  }
  // Positions are left unchecked: holes of the other part that these bolts fill need not be its own.
  joint.clampsAlso?.forEach(({ joint: other }, i) => {
    if (!jointById.has(other))
      fault([...path, 'clampsAlso', i, 'joint'], `There is no joint ${other}`, 'Name a joint of this plan.')
  })
}

function checkPass(pass: Pass, path: Path, fault: Report, figures: Figures): void {
  if (pass.kind === 'torque' && pass.limits) {
    const { minNm, maxNm } = pass.limits
    if (pass.torqueNm === null)
      fault([...path, 'limits'], 'Limits stand without a torque', 'Give the torque, or take the limits out.')
    else if (minNm > pass.torqueNm || pass.torqueNm > maxNm)
      fault(
        [...path, 'limits'],
        `${exact(minNm, figures)}–${exact(maxNm, figures)} N·m do not enclose ${exact(pass.torqueNm, figures)} N·m`,
        'Write a lowest and a highest with the torque between them.',
      )
  }
  if (pass.kind === 'angle' && pass.limits) {
    const { minDeg, maxDeg } = pass.limits
    if (minDeg > pass.angleDeg || pass.angleDeg > maxDeg)
      fault(
        [...path, 'limits'],
        `${exact(minDeg, figures)}–${exact(maxDeg, figures)}° do not enclose ${exact(pass.angleDeg, figures)}°`,
        'Write a lowest and a highest with the angle between them.',
      )
  }
}

function checkSets(step: PlanStep, path: Path, fault: Report): void {
  const own = new Map(step.joints.map((joint) => [joint.id, joint]))
  const holder = new Map<string, string>()
  twice(step.sets ?? [], [...path, 'sets'], fault)
  step.sets?.forEach((set, i) => {
    const at = [...path, 'sets', i]
    if (set.id === STEP_SET)
      fault([...at, 'id'], `“${STEP_SET}” names what no set covers`, 'Give the set another id.')
    set.covers.forEach((part, k) => {
      const joint = own.get(part.joint)
      if (!joint) {
        fault(
          [...at, 'covers', k],
          `${part.joint} is not a joint of ${step.id}`,
          'A set covers fasteners of its own step.',
        )
        return
      }
      for (const n of positionsOf(part, joint)) {
        const before = holder.get(`${joint.id} ${n}`)
        if (before !== undefined)
          fault(
            [...at, 'covers', k],
            `${joint.id} position ${n} is in ${before} already`,
            'Leave each position in one set.',
          )
        holder.set(`${joint.id} ${n}`, set.id)
      }
    })
  })
}

function twice(list: readonly { id: string }[], path: Path, fault: Report): void {
  const seen = new Set<string>()
  list.forEach(({ id }, i) => {
    if (seen.has(id)) fault([...path, i, 'id'], `The id ${id} is used twice`, 'Give each its own id.')
    seen.add(id)
  })
}
