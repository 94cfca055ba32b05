/**
 * The friction band: above, from which to which torque the bolt would be fully used as friction goes from slippery to
 * rough, with the torque looked at as a mark; below, what that one torque makes of the preload over the same band.
 */
import { createMemo } from 'solid-js'
import { type FrictionBandGiven, frictionBandAt } from './friction-band'
import './friction-band.css'

interface FrictionBandProps {
  band: FrictionBandGiven
  /** The mark stands outside the band, or stretches the bolt too far. */
  against?: boolean
  showNm: (nm: number) => string
  showN: (n: number) => string
  /** The whole drawing in words. */
  label: string
}

export function FrictionBand(props: FrictionBandProps) {
  const at = createMemo(() => frictionBandAt(props.band))
  const pct = (share: number) => `${share.toFixed(2)}%`
  /** Two figures closer than this write over each other: the upper one then stands at the band's far end. */
  const near = () => at().preload.yields - at().preload.high < 14
  return (
    <svg
      class="friction-band"
      classList={{ against: props.against === true }}
      width="100%"
      height="172"
      role="img"
      aria-label={props.label}
    >
      <text class="friction-name" x="0" y="14">
        torque for full use
      </text>
      <line class="friction-line" x1="0" x2="100%" y1="42" y2="42" />
      <rect
        class="friction-shade"
        x={pct(at().torque.low)}
        width={pct(at().torque.high - at().torque.low)}
        y="30"
        height="24"
      />
      <line class="friction-mark" x1={pct(at().torque.at)} x2={pct(at().torque.at)} y1="22" y2="62" />
      <text class="friction-figure" x={pct(at().torque.low)} y="78" text-anchor="middle">
        {props.showNm(props.band.lowNm)}
      </text>
      <text class="friction-figure" x={pct(at().torque.high)} y="78" text-anchor="middle">
        {props.showNm(props.band.highNm)}
      </text>
      <text class="friction-name" x="0" y="108">
        preload at the mark
      </text>
      <line class="friction-line" x1="0" x2="100%" y1="136" y2="136" />
      <rect
        class="friction-shade"
        x={pct(at().preload.low)}
        width={pct(at().preload.high - at().preload.low)}
        y="124"
        height="24"
      />
      <line
        class="friction-limit"
        x1={pct(at().preload.yields)}
        x2={pct(at().preload.yields)}
        y1="114"
        y2="154"
      />
      <text class="friction-figure" x={pct(at().preload.low)} y="168" text-anchor="middle">
        {props.showN(props.band.preloadLowN)}
      </text>
      <text
        class="friction-figure"
        x={pct(at().preload.high)}
        y="168"
        text-anchor={near() ? 'end' : 'middle'}
        dx={near() ? 8 : 0}
      >
        {props.showN(props.band.preloadHighN)}
      </text>
      <text
        class="friction-figure friction-yield"
        x={pct(at().preload.yields)}
        y="110"
        text-anchor="end"
        dx="8"
      >
        yields
      </text>
    </svg>
  )
}
