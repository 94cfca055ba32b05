/** How the trail says what a fastener got. */
import type { Band } from '../../plan/types'
import { formatNumber, showTorque } from '../../units'
import { listed } from '../../words'
import type { EventOf } from '../events'
import { flagWords } from '../kinds'
import type { Job, UnitSlip } from '../types'
import { fastenersName, jointOf } from './names'

type Taken = EventOf<'ReadingTaken'>
type Scale = EventOf<'ScaleEntered'>

export function place(job: Job, { jointId, position, pass }: Taken): string {
  const joint = jointOf(job, jointId)
  const label = joint?.positions.find(({ n }) => n === position)?.label
  const passes = joint ? ` of ${joint.passes.length}` : ''
  return `${fastenersName(job, jointId, [position])}${label ? ` (${label})` : ''}, pass ${pass}${passes}`
}

export function reached({ how, torqueNm, angleDeg, value }: Taken): string {
  const torque = torqueNm === undefined ? undefined : `${showTorque(torqueNm, 'N·m')} N·m`
  if (how === 'slackened') return 'slackened it'
  if (how === 'turned') return `turned it ${formatNumber(angleDeg ?? value ?? 0)}°`
  if (how === 'clicked')
    return torque ? `clicked it at ${torque}` : 'clicked it, with no number entered for the scale'
  return `read ${torque ?? formatNumber(value ?? 0)}`
}

export const withWrench = ({ wrenchId }: Pick<Taken, 'wrenchId'>): string =>
  wrenchId === undefined ? '' : ` with ${wrenchId}`

export function band(given: Band | null): string {
  if (!given) return ''
  if (given.kind === 'angle') return ` (band ${formatNumber(given.minDeg)}–${formatNumber(given.maxDeg)}°)`
  const { minNm, maxNm } = given
  return ` (band ${showTorque(minNm, 'N·m', [maxNm])}–${showTorque(maxNm, 'N·m', [minNm])} N·m)`
}

export const flags = ({ flags: given }: Pick<Taken, 'flags'>): string =>
  given.length === 0 ? '' : `; flagged: ${listed(given.map(flagWords))}`

export const slip = (given: UnitSlip | undefined): string =>
  given
    ? `; perhaps in the wrong unit: ${formatNumber(given.value)} ${given.readAs} is out of band, ${formatNumber(given.value)} ${given.fitsAs} would be in it`
    : ''

export function applied({ adapter, appliesNm, unit, value }: Scale): string {
  if (!adapter && unit === 'N·m') return ''
  const through = adapter ? ' through its adapter' : ''
  return value === appliesNm ? through : `, which applies ${showTorque(appliesNm, 'N·m')} N·m${through}`
}
