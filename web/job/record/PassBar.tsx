/** The band bar of one pass, for one fastener, a set or a round. */
import { Show } from 'solid-js'
import type { Reading } from '../../../shared/job/types'
import { inBand } from '../../../shared/plan/adopt'
import type { Band, Pass } from '../../../shared/plan/types'
import { bandWords, passWords } from '../../../shared/plan/words'
import { fromNm, type TorqueUnit } from '../../../shared/units'
import { BandBar } from '../../drawings/BandBar'
import { format } from '../../format'
import { judged } from './rows'

interface PassBarProps {
  asked: Pass
  band: Band | null
  /** What stands. */
  readings: readonly Reading[]
  /** Struck or superseded. */
  earlier?: readonly Reading[]
  /** In which a torque is shown; N·m unless said. */
  unit?: TorqueUnit
}

export function PassBar(props: PassBarProps) {
  const limits = (band: Band) =>
    band.kind === 'torque' ? [band.minNm, band.maxNm] : [band.minDeg, band.maxDeg]
  const target = () =>
    props.asked.kind === 'torque'
      ? (props.asked.torqueNm ?? undefined)
      : props.asked.kind === 'angle'
        ? props.asked.angleDeg
        : undefined
  const ticks = (band: Band) => [
    ...(props.earlier ?? []).flatMap((reading) => {
      const value = judged(reading)
      return value === undefined ? [] : [{ value, void: true }]
    }),
    ...props.readings.flatMap((reading) => {
      const value = judged(reading)
      return value === undefined ? [] : [{ value, out: !inBand(value, band) }]
    }),
  ]
  const show = (band: Band) => (value: number) => {
    if (band.kind === 'angle') return `${format.number(value)}°`
    const { unit = 'N·m' } = props
    return unit === 'N·m' ? format.torque(value, unit) : format.number(fromNm(value, unit), 1)
  }
  const label = (band: Band) => {
    const values = ticks(band).map(({ value }) => show(band)(value))
    return `Asked ${passWords(props.asked, format)}, band ${bandWords(band, format)}, ${values.length > 0 ? `read ${[...new Set(values)].join(', ')}` : 'nothing read'}`
  }
  return (
    <Show when={props.band}>
      {(band) => (
        <BandBar
          min={limits(band())[0]}
          max={limits(band())[1]}
          target={target()}
          ticks={ticks(band())}
          show={show(band())}
          label={label(band())}
        />
      )}
    </Show>
  )
}
