/**
 * A bolt, what it clamps and its hole in section, to scale: how much thread holds, what is left at the bottom, and what a
 * bolt that bottoms really does. The figures stand beside it as words; the drawing carries one label for all.
 */
import { createMemo, createUniqueId, For, Show } from 'solid-js'
import { format } from '../format'
import { type BoltSection, type Span, sectionOf } from './bolt-in-hole'
import './bolt-in-hole.css'

interface BoltInHoleProps {
  section: BoltSection
  /** The whole drawing in words: verdict, engagement, clearance. */
  label: string
  /** Something is wrong with it: what is wrong is drawn in rust. */
  against?: boolean
  /** CSS px. */
  height?: number
}

/** Room beside the section for its measures, in mm of the drawing. */
const BESIDE = 1.9
/** Room for a measure in words, in heights of its letters. */
const WORDS_WIDE = 6
const LEAST_PX = 15

export function BoltInHole(props: BoltInHoleProps) {
  const at = createMemo(() => sectionOf(props.section))
  // More than one section may stand on a page, each with hatching of its own scale.
  const id = createUniqueId()
  const d = () => props.section.dMm
  const margin = () => 0.35 * d()
  const width = () =>
    Math.max(
      at().halfWidth + margin() + BESIDE * at().halfWidth + 2 * d(),
      at().halfWidth + margin() + d() + WORDS_WIDE * text(),
    )
  const height = () => at().bottom - at().top + 2 * margin()
  const tall = () => props.height ?? 300
  // A long bolt drawn small keeps words that can be read.
  const text = () => Math.max(height() / 24, 0.3 * d(), (LEAST_PX * height()) / tall())
  const measures = createMemo(() => {
    const { engaged, clear, gap } = at()
    const engagedMm = Math.max(0, engaged.to - engaged.from)
    return [
      { span: engaged, words: `${mm(engagedMm)} mm hold`, kind: 'hold' },
      ...(clear ? [{ span: clear, words: `${mm(clear.to - clear.from)} mm clear`, kind: 'clear' }] : []),
      ...(gap ? [{ span: gap, words: `${mm(gap.to - gap.from)} mm off`, kind: 'gap' }] : []),
    ]
  })
  return (
    <svg
      class="bolt-section"
      classList={{ against: props.against === true }}
      viewBox={`${-at().halfWidth - margin()} ${at().top - margin()} ${width() + at().halfWidth} ${height()}`}
      style={{ height: `${tall()}px`, 'font-size': `${text()}px`, '--hair': `${d() / 40}px` }}
      role="img"
      aria-label={props.label}
    >
      <defs>
        <pattern
          id={`${id}-stack`}
          width={d() / 4}
          height={d() / 4}
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line class="section-hatch" y2={d() / 4} />
        </pattern>
        <pattern
          id={`${id}-part`}
          width={d() / 4}
          height={d() / 4}
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(-45)"
        >
          <line class="section-hatch" y2={d() / 4} />
        </pattern>
      </defs>
      <For each={[-1, 1]}>
        {(side) => (
          <>
            <Slab
              span={at().stack}
              from={side * at().stack.clear}
              to={side * at().halfWidth}
              fill={`url(#${id}-stack)`}
            />
            <Slab
              span={at().part}
              from={side * at().hole.half}
              to={side * at().halfWidth}
              fill={`url(#${id}-part)`}
            />
            <Show when={at().insert}>
              {(insert) => (
                <Slab
                  class="section-insert"
                  span={insert()}
                  from={side * at().hole.half}
                  to={side * (at().hole.half + insert().wall)}
                />
              )}
            </Show>
          </>
        )}
      </For>
      <Show when={!at().hole.through}>
        <path
          class="section-part-foot"
          fill={`url(#${id}-part)`}
          d={`M${-at().hole.half} ${at().hole.to}L0 ${at().hole.to + at().hole.tip}L${at().hole.half} ${at().hole.to}V${at().part.to}H${-at().hole.half}Z`}
        />
      </Show>
      <path class="section-thread" d={threadLines(at().thread, at().hole.half, props.section.pitchMm)} />
      <Show when={at().washer}>
        {(washer) => <Slab class="section-washer" span={washer()} from={-washer().half} to={washer().half} />}
      </Show>
      <Slab class="section-bolt" span={at().bolt} from={-at().bolt.half} to={at().bolt.half} />
      <Slab class="section-bolt" span={at().head} from={-at().head.half} to={at().head.half} />
      <line class="section-axis" y1={at().top} y2={at().bottom} />
      <For each={measures()}>
        {({ span, words, kind }) => {
          const x = () => at().halfWidth + 0.5 * d()
          return (
            <g class={`section-measure ${kind}`}>
              <path
                d={`M${at().halfWidth} ${span.from}H${x() + 0.2 * d()}M${at().halfWidth} ${span.to}H${x() + 0.2 * d()}M${x()} ${span.from}V${span.to}`}
              />
              <text x={x() + 0.4 * d()} y={(span.from + span.to) / 2} dominant-baseline="middle">
                {words}
              </text>
            </g>
          )
        }}
      </For>
    </svg>
  )
}

const mm = (value: number): string => format.number(value, 1)

function Slab(props: { span: Span; from: number; to: number; class?: string; fill?: string }) {
  return (
    <rect
      class={props.class ?? 'section-cut'}
      fill={props.fill}
      x={Math.min(props.from, props.to)}
      width={Math.abs(props.to - props.from)}
      y={props.span.from}
      height={Math.max(0, props.span.to - props.span.from)}
    />
  )
}

/** A short stroke at every pitch on both walls: the eye counts how much thread there is. */
function threadLines(thread: Span, half: number, pitch: number): string {
  const strokes: string[] = []
  for (let y = thread.from + pitch / 2; y < thread.to && strokes.length < 400; y += pitch)
    strokes.push(`M${-half} ${y}h${pitch * 0.7}M${half} ${y}h${-pitch * 0.7}`)
  return strokes.join('')
}
