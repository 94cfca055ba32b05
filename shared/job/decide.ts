/**
 * What may happen next to one engine: `decide(job, command, context)` gives the events, or says why not.
 *
 * Facts (a reading, a measurement, a scale entry, a slackening) are never refused: they are recorded, with
 * flags. Words (open, adopt, claim, sign) may be. An empty list means "nothing to do": a second tap
 * by the same hand changes nothing. Never throws for anything a person can send. The order of the checks is
 * RULES.md's; the first that fails is the answer. Start here, then `evolve.ts`.
 */
import { type Context, no, type Outcome, type PlannedJob, personOf } from './context'
import { claimStep, putDownStep } from './decide/claim'
import { answerGate, strikeMeasurement, takeMeasurement } from './decide/measure'
import { adoptPlan, openJob } from './decide/open'
import { strikeReading, takeReading } from './decide/reading'
import { enterScale } from './decide/scale'
import { secondSignStep, signStep } from './decide/sign'
import type { Job, JobCommand } from './types'

export function decide(job: Job, command: JobCommand, context: Context): Outcome {
  if (!personOf(context)) return no('person_unknown', { by: context.by })
  if (command.type === 'OpenJob') return openJob(job, command, context)
  if (job.version === 0) return no('job_not_open', {})
  if (command.type === 'AdoptPlan') return adoptPlan(job, command, context)
  if (!job.plan) return no('no_plan', {})
  const planned = job as PlannedJob
  switch (command.type) {
    case 'ClaimStep':
      return claimStep(planned, command, context)
    case 'PutDownStep':
      return putDownStep(planned, command, context)
    case 'EnterScale':
      return enterScale(planned, command, context)
    case 'TakeReading':
      return takeReading(planned, command, context)
    case 'StrikeReading':
      return strikeReading(planned, command, context)
    case 'TakeMeasurement':
      return takeMeasurement(planned, command, context)
    case 'StrikeMeasurement':
      return strikeMeasurement(planned, command, context)
    case 'AnswerGate':
      return answerGate(planned, command, context)
    case 'SignStep':
      return signStep(planned, command, context)
    case 'SecondSignStep':
      return secondSignStep(planned, command, context)
  }
}
