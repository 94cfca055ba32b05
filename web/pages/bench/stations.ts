/**
 * The stations of a step, left to right: its rounds, its measurements, its checks, and the signatures last. Pure.
 */
import type { PlannedJob } from '../../../shared/job/context'
import { gatesOpen } from '../../../shared/job/decide/sign'
import {
  isDone,
  isProven,
  positionState,
  setViews,
  standingMeasurement,
  stepState,
} from '../../../shared/job/verdicts'
import type { AdoptedStep, Gate } from '../../../shared/plan/types'
import { type Round, roundsOf } from './work'

export type Station =
  | { kind: 'round'; key: string; title: string; round: Round; done: boolean; tally: string }
  | { kind: 'measure' | 'check' | 'sign'; key: string; title: string; done: boolean; tally: string }

export function stationsOf(job: PlannedJob, step: AdoptedStep): Station[] {
  const state = stepState(job, step.id)
  const places = step.measurements.flatMap((one) => one.places.map((place) => ({ id: one.id, place })))
  const good = places.filter(({ id, place }) => standingMeasurement(state, id, place)?.inBand).length
  const met = step.gates.filter((gate) => gateMet(job, step, gate)).length
  const views = setViews(job, step)
  const signed = views.filter(({ state: set }) => set.first && (step.signatures === 1 || set.second)).length
  return [
    ...roundsOf(step).map((round): Station => {
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
    { ...tallied('sign', 'Sign', signed, views.length), done: isDone(job, step) },
  ]
}

const tallied = (kind: 'measure' | 'check' | 'sign', title: string, done: number, of: number): Station => ({
  kind,
  key: kind,
  title,
  done: done === of,
  tally: `${done} of ${of}`,
})

/** As far as this screen can tell; the rule that stops the signature is `gatesOpen`. */
export function gateMet(job: PlannedJob, step: AdoptedStep, gate: Gate): boolean {
  const answer = stepState(job, step.id).gates[gate.id]
  switch (gate.kind) {
    case 'look':
      return answer !== undefined
    case 'count':
      return answer?.count === gate.expect
    case 'proven':
      return gate.covers.every((fasteners) => isProven(job, fasteners))
    case 'photo':
    case 'cured':
    case 'no_open_class_a':
      return gatesOpen(job, { ...step, gates: [gate] }) === undefined
  }
}

/** Where a page opens: the first station with something to do. */
export const firstStation = (stations: readonly Station[]): string =>
  (stations.find(({ done }) => !done) ?? stations.at(-1))?.key ?? 'sign'
