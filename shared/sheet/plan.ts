/**
 * A build plan drafted from a torque sheet: a step for each section or group, a joint for each line.
 *
 * A draft to finish, and it says so: every joint is proposed as class B, for only its author can say what is A;
 * what was not read, contradicts itself or is impossible has no torque; what a sheet does not tell (grade,
 * lubrication, reuse, minutes) is marked as not given. Each joint carries its line as pasted.
 */
import { checkPlan } from '../plan/check'
import { NOT_GIVEN } from '../plan/fasteners'
import type { PlanCaution } from '../plan/order'
import type { PlanFault } from '../plan/place'
import type { Joint, Pass, Plan, PlanStep, Position } from '../plan/types'
import { type SpecPass, specSentenceFor } from '../spec'
import type { Figures } from '../words'
import { boltOf } from './lengths'
import { contradictionWords } from './line'
import type { ItemLine, SheetLine } from './types'

export interface PlanHead {
  id: string
  title: string
  family: string
  /** Where the sheet came from: title, edition, page. */
  source: string
  edition?: number
}

export interface PlanDraft {
  plan: Plan
  /** What the plan check says about it. */
  faults: PlanFault[]
  cautions: PlanCaution[]
}

/** The most a plan file takes; what is more goes into a further step, or is said in a note. */
const MOST = { joints: 60, positions: 200, passes: 20, torqueNm: 50_000, angleDeg: 1080 }

export function sheetToPlan(lines: readonly SheetLine[], head: PlanHead, figures: Figures): PlanDraft {
  const sections = sectionsOf(lines, head.title)
  const steps = sections.flatMap(({ title, items, note }) => {
    const parts = Array.from({ length: Math.max(1, Math.ceil(items.length / MOST.joints)) }, (_, i) =>
      items.slice(i * MOST.joints, (i + 1) * MOST.joints),
    )
    return parts.map((part, i) => ({
      title: parts.length > 1 ? `${short(title, 150)} (${i + 1})` : title,
      items: part,
      note,
    }))
  })
  const plan: Plan = {
    format: 'paintmark-plan/1',
    id: head.id,
    edition: head.edition ?? 1,
    title: short(head.title, 160),
    family: short(head.family, 40),
    source: short(head.source, 400),
    notices: [
      'Drafted from a torque sheet. Every joint is proposed as class B: whoever finishes the plan decides which are A, and compares each line with the page.',
      'The maker’s current information for the serial number governs, and the word of a licensed, competent person stands above this plan.',
    ],
    stages: [{ id: 'S1', title: 'From the torque sheet' }],
    steps: steps.map(({ title, items, note }, i) => stepOf(`T${i + 1}`, title, items, note, figures)),
  }
  return { plan, ...checkPlan(plan, figures) }
}

interface Section {
  title: string
  items: ItemLine[]
  note?: string
}

function sectionsOf(lines: readonly SheetLine[], title: string): Section[] {
  const sections: Section[] = []
  let heading: string | undefined
  let groups = new Map<string, Section>()
  for (const line of lines) {
    if (line.kind === 'section') {
      heading = line.title
      groups = new Map()
      const made = { title: heading, items: [], ...(line.doubt ? { note: line.doubt.join(' ') } : {}) }
      sections.push(made)
      groups.set('', made)
    }
    if (line.kind !== 'item') continue
    const key = line.group?.toLowerCase() ?? ''
    const known = groups.get(key)
    const made = known ?? {
      title: [heading, line.group].filter(Boolean).join(': ') || title,
      items: [],
    }
    if (!known) sections.push(made)
    groups.set(key, made)
    made.items.push(line)
  }
  // A heading whose lines all have their own step is the name of those steps.
  const filled = sections.filter(
    (one) => one.items.length > 0 || !sections.some((other) => other.title.startsWith(`${one.title}: `)),
  )
  return filled.length > 0
    ? filled
    : [{ title, items: [], note: 'The sheet has no line that could be a joint.' }]
}

function stepOf(
  id: string,
  title: string,
  items: ItemLine[],
  note: string | undefined,
  figures: Figures,
): PlanStep {
  return {
    id,
    stage: 'S1',
    title: short(title, 160),
    kind: 'tighten',
    needs: [],
    hides: [],
    minutes: { low: 0, likely: 0, high: 0 },
    signatures: 1,
    notes: [
      ...(note ? [short(note, 400)] : []),
      'The sheet does not say how long this takes, what comes before it and what it covers.',
    ],
    joints: items.map((item) => jointOf(`J${item.line}`, item, figures)),
    measurements: [],
    parts: [],
    gates: [],
  }
}

function jointOf(id: string, line: ItemLine, figures: Figures): Joint {
  const { passes, notes } = passesOf(line, figures)
  const count = Math.min(line.count ?? 1, MOST.positions)
  const { told: boltTold, fastener, lengthMm, boltThreadMm, hole } = boltOf(line)
  const told = [
    `As pasted, line ${line.line}: ${line.text.trim()}`,
    ...notes,
    ...(line.count === undefined ? ['How many there are is not given: one is drawn.'] : []),
    ...((line.count ?? 0) > MOST.positions
      ? [`${line.count} are printed; ${MOST.positions} are drawn.`]
      : []),
    ...(line.use ? [] : ['Whether they may be used again is not given.']),
    ...boltTold,
    ...(line.note ? [line.note] : []),
  ]
  return {
    id,
    title: short(line.item || (line.position ? `Position ${line.position}` : `Line ${line.line}`), 120),
    fastener,
    ...(lengthMm === undefined ? {} : { lengthMm }),
    ...(boltThreadMm === undefined ? {} : { boltThreadMm }),
    ...(hole ? { hole: { ...hole, material: short(hole.material, 60) } } : {}),
    thread: short(line.thread ?? NOT_GIVEN, 40),
    grade: short(line.grade ?? NOT_GIVEN, 40),
    lubrication: short(line.lubrication ?? NOT_GIVEN, 80),
    class: 'B',
    use: { kind: line.use ?? 'reusable' },
    positions: Array.from({ length: count }, (_, i): Position => ({ n: i + 1, x: i * 40, y: 0 })),
    passes,
    interruption: {
      torqueOnly: 'restart_pass',
      // The most careful there is; the maker's word may be milder.
      ...(passes.some((pass) => pass.kind === 'angle') ? { afterAngle: 'new_fasteners' as const } : {}),
    },
    notes: told.map((one) => short(one, 400)),
  }
}

const OPEN: Pass = { kind: 'torque', torqueNm: null }

/** Passes of the plan, or one without a torque and the reason in a note. */
function passesOf(line: ItemLine, figures: Figures): { passes: Pass[]; notes: string[] } {
  const open = (why: string) => ({ passes: [OPEN], notes: [why] })
  if (!line.spec)
    return open(
      (line.refusal && specSentenceFor(line.refusal, figures)) ?? 'It has no torque from the sheet.',
    )
  const { passes, contradiction } = line.spec
  if (contradiction) return open(contradictionWords(contradiction))
  if (line.stop) return open(line.stop)
  const drafted = passes.map((pass) => passOf(pass, figures))
  const refused = drafted.find((one) => one.pass === undefined)
  if (passes.length > MOST.passes || refused)
    return open(refused?.note ?? `${passes.length} passes are more than a plan takes.`)
  return {
    passes: drafted.flatMap(({ pass }) => (pass ? [pass] : [])),
    notes: drafted.flatMap(({ note }, i) => (note ? [`Pass ${i + 1}: ${note}`] : [])),
  }
}

function passOf(pass: SpecPass, figures: Figures): { pass?: Pass; note?: string } {
  if (pass.kind === 'slacken') {
    const { nominalDeg, minDeg, maxDeg } = pass
    if (nominalDeg !== undefined && nominalDeg > MOST.angleDeg)
      return { note: `${figures.number(nominalDeg)}° is more than a plan takes.` }
    const note =
      minDeg !== undefined || maxDeg !== undefined
        ? { note: `slackening ${span(minDeg, maxDeg, figures)}° is printed.` }
        : {}
    return {
      pass: { kind: 'slacken', ...(nominalDeg === undefined ? {} : { angleDeg: nominalDeg }) },
      ...note,
    }
  }
  const [value, min, max, unit, most] =
    pass.kind === 'torque'
      ? ([pass.nominalNm, pass.minNm, pass.maxNm, ' N·m', MOST.torqueNm] as const)
      : ([pass.nominalDeg, pass.minDeg, pass.maxDeg, '°', MOST.angleDeg] as const)
  if (Math.max(value ?? 0, min ?? 0, max ?? 0) > most)
    return { note: `More than ${most}${unit} is more than a plan takes.` }
  const whole = min !== undefined && max !== undefined && (pass.kind === 'angle' || min > 0)
  const target = value ?? (whole ? Number(((min + max) / 2).toPrecision(12)) : undefined)
  if (target === undefined)
    return { note: `only a limit is printed (${span(min, max, figures)}${unit}): decide what to tighten to.` }
  const note =
    value === undefined
      ? { note: `${span(min, max, figures)}${unit} is printed; its middle is proposed.` }
      : !whole && (min !== undefined || max !== undefined)
        ? {
            note: `${span(min, max, figures)}${unit} is printed beside it; a plan takes both limits or none.`,
          }
        : {}
  const made: Pass =
    pass.kind === 'torque'
      ? {
          kind: 'torque',
          torqueNm: target,
          ...(whole ? { limits: { minNm: min, maxNm: max, from: 'maker' } } : {}),
        }
      : {
          kind: 'angle',
          angleDeg: target,
          ...(whole ? { limits: { minDeg: min, maxDeg: max, from: 'maker' } } : {}),
        }
  return { pass: made, ...note }
}

function span(min: number | undefined, max: number | undefined, { number }: Figures): string {
  const shown = (value: number) => number(value, 2)
  if (min !== undefined && max !== undefined) return `${shown(min)}–${shown(max)}`
  return min !== undefined ? `at least ${shown(min)}` : `at most ${shown(max ?? 0)}`
}

/** To the length a plan takes; the whole text stands in the note of its line. */
function short(text: string, most: number): string {
  const plain = text.trim().replace(/\s+/g, ' ')
  return (plain.length > most ? `${plain.slice(0, most - 1)}…` : plain) || NOT_GIVEN
}
