/** The band bar of one pass, for one fastener or a whole set: the same drawing as on the bench. */
import { Show } from 'solid-js'
import type { Reading } from '../../../shared/job/types'
import { inBand } from '../../../shared/plan/adopt'
import type { Band, Pass } from '../../../shared/plan/types'
import { bandWords, passWords } from '../../../shared/plan/words'
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
  const show = (band: Band) => (value: number) =>
    band.kind === 'torque' ? format.torque(value, 'N·m') : `${format.number(value)}°`
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
