/**
 * What an edition says beside its fasteners: signatures, measurements, seals, gates, what was left out, accepted,
 * settled and noted. One row each, in the plan's order; nothing that was struck is left out.
 */

import { flagWords, LOOK_FLAGS } from '../../../shared/job/kinds'
import { peopleNamed } from '../../../shared/job/named'
import type { Job, MeasurementEntry, Photo, PlannedJob, SetState, Signature } from '../../../shared/job/types'
import { isWaived, standingFlags, stands, stepState } from '../../../shared/job/verdicts'
import { signatureSets } from '../../../shared/plan/read'
import type { AdoptedStep, Measurement } from '../../../shared/plan/types'
import { unitAfter } from '../../../shared/units'
import { listed, positionsInWords, type Words } from '../../../shared/words'
import { format } from '../../format'
import { photoTitle } from '../../job/photos/photos'
import { reachedWords } from '../../job/record/rows'

const MINUTE = 60_000

/** `Bram Tolland, 24 Nov 2026, 13:40`. */
export const byWords = ({ by, doneAt }: Signature, words: Words): string =>
  `${words.person(by)}, ${words.moment(doneAt)}`

interface SignatureRow {
  stepId: string
  title: string
  first?: Signature
  second?: SetState['second']
  look?: SetState['look']
  secondAsked: boolean
  /** The missing second signature was waived. */
  accepted: boolean
}

export function signatureRows(job: PlannedJob, steps: readonly AdoptedStep[]): SignatureRow[] {
  return steps.flatMap((step) =>
    signatureSets(step).map((set): SignatureRow => {
      const { first, second, look } = stepState(job, step.id).sets[set.id] ?? {}
      return {
        stepId: step.id,
        title: set.remainder ? step.title : `${step.title}: ${set.title}`,
        ...(first ? { first } : {}),
        ...(second ? { second } : {}),
        ...(look ? { look } : {}),
        secondAsked: step.signatures === 2,
        accepted: !second && isWaived(job, { kind: 'second', stepId: step.id, setId: set.id }),
      }
    }),
  )
}

/** What is said of a second signature beside its name. */
export function secondWords(row: SignatureRow, words: Words): string {
  if (!row.secondAsked) return 'none asked'
  if (row.second) {
    const marks = [
      row.second.late ? 'late: covered already' : '',
      row.second.through === 'own_recheck' ? 'second-signed by the same person' : '',
      row.second.through === 'grant' ? 'by PIN on another’s tablet' : '',
      row.second.through === 'sealed' ? 'by PIN on another’s tablet without signal' : '',
    ].filter(Boolean)
    return [byWords(row.second, words), ...marks].join(', ')
  }
  if (row.accepted) return 'missing, accepted with a reason'
  if (row.look)
    return `look noted: ${words.person(row.look.personId)}, ${words.moment(row.look.doneAt)}; no signature${row.look.flag ? `: ${LOOK_FLAGS[row.look.flag]}` : ''}`
  return row.first ? 'owed' : 'not signed'
}

interface MeasurementRow {
  stepId: string
  asked: Measurement
  entry: MeasurementEntry
  remark: string
}

export function measurementRows(
  job: PlannedJob,
  steps: readonly AdoptedStep[],
  words: Words,
): MeasurementRow[] {
  return steps.flatMap((step) => {
    const { measurements } = stepState(job, step.id)
    return step.measurements.flatMap((asked) =>
      measurements
        .filter(({ measurementId }) => measurementId === asked.id)
        .sort((a, b) => asked.places.indexOf(a.place) - asked.places.indexOf(b.place) || a.doneAt - b.doneAt)
        .map((entry) => ({ stepId: step.id, asked, entry, remark: measurementRemark(job, entry, words) })),
    )
  })
}

function measurementRemark(job: PlannedJob, entry: MeasurementEntry, words: Words): string {
  if (entry.struck) return `crossed out by ${words.person(entry.struck.by)}: ${entry.struck.reason}`
  if (entry.superseded) return `measured again by ${words.person(entry.superseded.by)}`
  if (entry.inBand) return 'within'
  return isWaived(job, { kind: 'measurement', entryId: entry.id })
    ? 'out of limits, accepted'
    : 'out of limits'
}

/** `0.11 mm`. */
export const measuredWords = ({ entry, asked }: MeasurementRow): string =>
  `${format.number(entry.value, 6)}${unitAfter(asked.unit)}`

interface SealantRow {
  stepId: string
  product: string
  started: Signature
  closed?: Signature
  /** Minutes from the first bead to the last fastener. */
  minutes?: number
  within: number
  curedAt?: number
  remark: string
}

/** Every bead laid, also those stripped for a new one. */
export function sealantRows(job: PlannedJob, steps: readonly AdoptedStep[]): SealantRow[] {
  return steps.flatMap((step) => {
    const { sealant } = step
    if (!sealant) return []
    const beads = stepState(job, step.id).sealant
    return beads.map(({ started, closed }, index): SealantRow => {
      const minutes = closed && Math.round((closed.doneAt - started.doneAt) / MINUTE)
      const late = minutes !== undefined && minutes > sealant.closeWithinMinutes
      const waived = isWaived(job, { kind: 'sealant', stepId: step.id })
      const last = index === beads.length - 1
      return {
        stepId: step.id,
        product: sealant.product,
        started,
        ...(closed ? { closed, curedAt: closed.doneAt + sealant.cureMinutes * MINUTE } : {}),
        ...(minutes === undefined ? {} : { minutes }),
        within: sealant.closeWithinMinutes,
        remark: !last
          ? 'cleaned off, laid again'
          : !late
            ? ''
            : waived
              ? 'closed late, accepted'
              : 'closed late',
      }
    })
  })
}

export interface GateRow {
  stepId: string
  text: string
  answer?: Signature & { count?: number }
  photos: Photo[]
  /** Reckoned from the record when the step was signed. */
  reckoned: boolean
  waived: boolean
}

export function gateRows(job: PlannedJob, steps: readonly AdoptedStep[]): GateRow[] {
  return steps.flatMap((step) =>
    step.gates.map((gate): GateRow => {
      const answer = stepState(job, step.id).gates[gate.id]
      return {
        stepId: step.id,
        text: gate.text,
        ...(answer ? { answer } : {}),
        photos: job.photos.filter((photo) => photo.stepId === step.id && photo.gateId === gate.id),
        reckoned: gate.kind === 'proven' || gate.kind === 'cured' || gate.kind === 'no_open_class_a',
        waived: isWaived(job, { kind: 'gate', stepId: step.id, gateId: gate.id }),
      }
    }),
  )
}

export interface PictureRow {
  photo: Photo
  /** Step, place and caption, as far as they are known and without saying one twice. */
  title: string
  /** Its bytes came to the server, by now at the latest: under its hash they can be no others. */
  here: boolean
}

/** Photos of the covered steps and of the engine as a whole, oldest first. */
export function pictureRows(job: PlannedJob, steps: readonly AdoptedStep[], now: Job): PictureRow[] {
  const covered = new Set(steps.map(({ id }) => id))
  const arrived = new Set(now.photos.flatMap((photo) => (photo.arrived ? [photo.id] : [])))
  return job.photos
    .filter(({ stepId }) => stepId === undefined || covered.has(stepId))
    .toSorted((a, b) => a.doneAt - b.doneAt)
    .map((photo) => ({ photo, title: photoTitle(photo), here: arrived.has(photo.id) }))
}

export function gateWords({ answer, photos, reckoned, waived }: GateRow, words: Words): string {
  const parts = [
    answer
      ? `${answer.count === undefined ? 'yes' : `${answer.count} counted`}, ${byWords(answer, words)}`
      : '',
    ...photos.map(
      (photo) =>
        `photo${photo.place ? ` of ${photo.place}` : ''} ${photo.sha256.slice(0, 12)}, ${words.person(photo.by)}${photo.arrived ? '' : ', not here yet'}`,
    ),
    waived ? 'accepted with a reason' : '',
  ].filter(Boolean)
  if (parts.length > 0) return parts.join('; ')
  return reckoned ? 'answered by the record' : 'not answered'
}

/** Readings that count although something about them is odd, gathered by what it is. */
export function doubtLines(job: PlannedJob, steps: readonly AdoptedStep[], words: Words): string[] {
  return steps.flatMap((step) =>
    step.joints.flatMap((joint) => {
      const groups = new Map<string, number[]>()
      for (const reading of job.readings[joint.id] ?? []) {
        if (!stands(reading) || reading.flags.length === 0) continue
        const stillOpen = standingFlags(job, reading).length > 0
        const key = `pass ${reading.pass}: ${listed(reading.flags.map(flagWords))}, ${reachedWords(reading)}, ${words.person(reading.by)}${stillOpen ? '' : '; accepted or settled since'}`
        groups.set(key, [...(groups.get(key) ?? []), reading.position])
      }
      return [...groups].map(
        ([said, positions]) => `${step.id} ${joint.title} ${positionsInWords(positions)}, ${said}.`,
      )
    }),
  )
}

/** Everybody the record names, whoever released it first, for the key of initials. */
export const peopleOf = (job: PlannedJob, releasedBy: string): string[] => [
  ...new Set([releasedBy, ...peopleNamed(job)]),
]
