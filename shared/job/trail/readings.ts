/** How the trail says what a fastener got. */
import type { Band } from '../../plan/types'
import { bandWords } from '../../plan/words'
import { type Figures, listed } from '../../words'
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

export function reached({ how, torqueNm, angleDeg, value, band }: Taken, figures: Figures): string {
  const limits = band?.kind === 'torque' ? [band.minNm, band.maxNm] : []
  const torque = torqueNm === undefined ? undefined : `${figures.torque(torqueNm, 'N·m', limits)} N·m`
  if (how === 'slackened') return 'slackened it'
  if (how === 'turned') return `turned it ${figures.number(angleDeg ?? value ?? 0)}°`
  if (how === 'clicked')
    return torque ? `clicked it at ${torque}` : 'clicked it, with no number entered for the scale'
  return `read ${torque ?? figures.number(value ?? 0)}`
}

export const withWrench = ({ wrenchId }: Pick<Taken, 'wrenchId'>): string =>
  wrenchId === undefined ? '' : ` with ${wrenchId}`

export const inBand = (band: Band | null, figures: Figures): string =>
  band ? ` (band ${bandWords(band, figures)})` : ''

export const flagged = ({ flags }: Pick<Taken, 'flags'>): string =>
  flags.length === 0 ? '' : `; flagged: ${listed(flags.map(flagWords))}`

export const slipWords = (slip: UnitSlip | undefined, { number }: Figures): string =>
  slip
    ? `; perhaps in the wrong unit: ${number(slip.value)} ${slip.readAs} is out of band, ${number(slip.value)} ${slip.fitsAs} would be in it`
    : ''

export function applied({ adapter, appliesNm, unit, value }: Scale, { torque }: Figures): string {
  if (!adapter && unit === 'N·m') return ''
  const through = adapter ? ' through its adapter' : ''
  return value === appliesNm ? through : `, which applies ${torque(appliesNm, 'N·m')} N·m${through}`
}
