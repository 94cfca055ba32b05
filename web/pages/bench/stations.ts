/**
 * The stations of a step, left to right: its rounds, its measurements, its checks, and the signatures last. Pure.
 */
import { gateMet } from '../../../shared/job/decide/open-ends'
import type { PlannedJob } from '../../../shared/job/types'
import { isDone, positionState, setViews, standingMeasurement, stepState } from '../../../shared/job/verdicts'
import type { AdoptedStep, Gate } from '../../../shared/plan/types'
import { lowerFirst } from '../../../shared/words'
import { photoPlaces } from '../../job/photos/photos'
import { type Round, roundsIn } from './work'

export type Station =
  | { kind: 'round'; key: string; title: string; round: Round; done: boolean; tally: string }
  | { kind: 'measure' | 'check' | 'sign'; key: string; title: string; done: boolean; tally: string }

export function stationsOf(job: PlannedJob, step: AdoptedStep, now: number): Station[] {
  const state = stepState(job, step.id)
  const places = step.measurements.flatMap(({ id, places }) => places.map((place) => ({ id, place })))
  const good = places.filter(({ id, place }) => standingMeasurement(state, id, place)?.inBand).length
  const met = step.gates.filter((gate) => gateDone(job, step, gate, now)).length
  const views = setViews(job, step)
  const signed = views.reduce(
    (sum, { state: set }) => sum + Number(!!set.first) + Number(step.signatures === 2 && !!set.second),
    0,
  )
  return [
    ...roundsIn(job, step).map((round): Station => {
      const final = round.positions.filter((n) => positionState(job, round.joint, n).final).length
      const of = round.positions.length
      return {
        kind: 'round',
        key: round.key,
        title: round.title,
        round,
        done: final === of,
        tally: `${final} of ${of}`,
      }
    }),
    ...(places.length > 0 ? [tallied('measure', 'Measure', good, places.length)] : []),
    ...(step.gates.length > 0 ? [tallied('check', 'Check', met, step.gates.length)] : []),
    { ...tallied('sign', 'Sign', signed, views.length * step.signatures), done: isDone(job, step) },
  ]
}

const tallied = (kind: 'measure' | 'check' | 'sign', title: string, done: number, of: number): Station => ({
  kind,
  key: kind,
  title,
  done: done === of,
  tally: `${done} of ${of}`,
})

/** On the press that leads to a station. */
export const nextLabel = ({ kind, title }: Station): string =>
  `Next: ${kind === 'sign' ? 'sign step' : kind === 'round' ? title : lowerFirst(title)}`

/** Met, and every photo it asks for taken: a photo stops the release, not the signature. */
export const gateDone = (job: PlannedJob, step: AdoptedStep, gate: Gate, now: number): boolean =>
  gate.kind === 'photo'
    ? photoPlaces(job, step, gate).every(({ state }) => state !== 'open')
    : gateMet(job, step, gate, now)

/** Where a page opens: the first station with something to do. */
export const firstStation = (stations: readonly Station[]): string =>
  (stations.find(({ done }) => !done) ?? stations.at(-1))?.key ?? 'sign'
