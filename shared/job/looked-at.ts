/**
 * What a second person looks at: the content of a step, as far as one signature covers it, as one text. Its SHA-256 is
 * what their look names, so that whatever changes it takes the look back, and nothing else does [SS20].
 *
 * Built from lists alone, so that it is the same whatever order a store gives to keys; without times and without ids,
 * which the server may put right as an entry arrives. The device makes it from what it shows, entries that still wait
 * included; the server from what those came to.
 */
import { indexPlan, type SignatureSetView } from '../plan/read'
import type { AdoptedJoint, AdoptedStep, Band } from '../plan/types'
import type { PlannedJob, Reading } from './types'
import { bandFor, coversOf, holeAt, stands, stepState } from './verdicts'

export function lookedAt(job: PlannedJob, step: AdoptedStep, set: SignatureSetView): string {
  const { id, edition } = job.plan
  const { first, lapsed = 0 } = stepState(job, step.id).sets[set.id] ?? {}
  const { jointById } = indexPlan(job.plan)
  const fasteners = coversOf(job, step, set).flatMap(({ joint: jointId, positions }) => {
    const joint = jointById.get(jointId)
    return joint ? positions.map((position) => fastenerThere(job, joint, position)) : []
  })
  const rest = set.remainder ? besideFasteners(job, step) : []
  return JSON.stringify([id, edition, step.id, set.id, lapsed, first?.by, fasteners, rest])
}

/** One place with the fastener and hole in it, and every entry made there: one more is another content, if it says the same. */
function fastenerThere(job: PlannedJob, joint: AdoptedJoint, position: number) {
  const here = (job.readings[joint.id] ?? []).filter((reading) => reading.position === position)
  const fastener = job.fasteners[joint.id]?.[position]
  const hole = holeAt(job, joint.id, position)
  return [
    joint.id,
    position,
    here.length,
    here.filter(stands).map(readingParts),
    joint.passes.map((_, index) => bandParts(bandFor(job, joint, index + 1))),
    fastener && [fastener.by, fastener.condition, fastener.cycle, fastener.lengthMm, fastener.flags],
    hole && [
      hole.by,
      hole.condition,
      hole.depthMm,
      hole.threadMm,
      hole.insert && [hole.insert.kind, hole.insert.lengthMm, hole.insert.setDownMm, hole.insert.outerThread],
      hole.doneBy,
      hole.note,
    ],
  ]
}

const readingParts = (reading: Reading) => [
  reading.by,
  reading.pass,
  reading.how,
  reading.wrenchId,
  reading.value,
  reading.unit,
  reading.torqueNm,
  reading.angleDeg,
  reading.flags,
]

const bandParts = (band: Band | null) =>
  band && (band.kind === 'torque' ? [band.minNm, band.maxNm] : [band.minDeg, band.maxDeg])

/** What the step's own set says beside its fasteners. */
function besideFasteners(job: PlannedJob, step: AdoptedStep) {
  const { measurements, gates, sealant, takenOff } = stepState(job, step.id)
  const bead = sealant.at(-1)
  return [
    measurements.length,
    measurements
      .filter(stands)
      .map((entry) => [
        entry.by,
        entry.measurementId,
        entry.place,
        entry.value,
        entry.instrument,
        entry.inBand,
      ]),
    step.gates.map(({ id }) => gates[id] && [id, gates[id].by, gates[id].count]),
    sealant.length,
    bead && [bead.started.by, bead.closed?.by],
    takenOff?.by,
  ]
}
