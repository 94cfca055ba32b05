/** Waivers as the audit lists them and a record prints them: what was accepted, by its name, newest first. Pure. */
import { waivedName } from '../../../shared/job/trail/names'
import type { Job, PlannedJob, Waived, Waiver } from '../../../shared/job/types'
import { readingById } from '../../../shared/job/verdicts'
import { indexPlan } from '../../../shared/plan/read'
import { unitAfter } from '../../../shared/units'
import { upperFirst } from '../../../shared/words'
import { format } from '../../format'

interface WaiverLine {
  waiver: Waiver
  name: string
  stepId: string
}

/** Waivers given, newest first. */
export function waiverLines(job: PlannedJob): WaiverLine[] {
  return job.waivers.toReversed().map((waiver) => ({
    waiver,
    name: waivedWords(job, waiver.what),
    stepId: stepOfWaived(job, waiver.what),
  }))
}

/** As the trail names it, as a line of its own; and a measurement by its title and place. */
export function waivedWords(job: Job, what: Waived): string {
  const name = () => upperFirst(waivedName(job, what).replace(/^that /, ''))
  if (what.kind !== 'measurement') return name()
  const entry = entryOf(job, what.entryId)
  const step = entry && job.plan && indexPlan(job.plan).stepById.get(entry.stepId)
  const measurement = step?.measurements.find(({ id }) => id === entry?.measurementId)
  return entry && measurement
    ? `${measurement.title}, ${entry.place}: ${format.number(entry.value, 6)}${unitAfter(measurement.unit)}`
    : name()
}

const entryOf = (job: Job, entryId: string) =>
  Object.values(job.steps)
    .flatMap(({ measurements }) => measurements)
    .find(({ id }) => id === entryId)

function stepOfWaived(job: PlannedJob, what: Waived): string {
  const { stepOfJoint } = indexPlan(job.plan)
  switch (what.kind) {
    case 'reading': {
      const reading = readingById(job, what.readingId)
      return stepOfJoint.get(reading?.jointId ?? '')?.id ?? ''
    }
    case 'fastener':
      return stepOfJoint.get(what.jointId)?.id ?? ''
    case 'measurement':
      return entryOf(job, what.entryId)?.stepId ?? ''
    default:
      return what.stepId
  }
}
