/**
 * What a preload puts on a joint against what each link of it bears: bolt, bolt's thread, thread of the hole.
 *
 * The preload is a band, for friction is one; it runs down through all links, so that the eye sees which is nearest. The
 * weakest carries a broken edge besides its word, so that nothing depends on colour.
 */
import { For } from 'solid-js'
import './link-bars.css'

export interface Link {
  words: string
  bearsN: number
  weakest: boolean
}

interface LinkBarsProps {
  links: readonly Link[]
  preloadLowN: number
  preloadHighN: number
  /** A load as the reader wants it: `14.2 kN`. */
  show: (n: number) => string
}

const ROW = 46

export function LinkBars(props: LinkBarsProps) {
  const most = () => Math.max(props.preloadHighN, ...props.links.map(({ bearsN }) => bearsN)) * 1.02
  const share = (n: number) => `${((n / most()) * 100).toFixed(2)}%`
  const height = () => (props.links.length + 1) * ROW
  const label = () =>
    `Preload ${props.show(props.preloadLowN)} to ${props.show(props.preloadHighN)}. ${props.links
      .map(
        ({ words, bearsN, weakest }) =>
          `${words} bears ${props.show(bearsN)}${weakest ? ', the weakest' : ''}`,
      )
      .join('; ')}.`
  return (
    <svg class="link-bars" width="100%" height={height()} role="img" aria-label={label()}>
      <rect
        class="link-preload-through"
        x={share(props.preloadLowN)}
        width={share(props.preloadHighN - props.preloadLowN)}
        y={20}
        height={height() - 20}
      />
      <rect
        class="link-preload"
        x={share(props.preloadLowN)}
        width={share(props.preloadHighN - props.preloadLowN)}
        y={20}
        height={16}
      />
      <For each={props.links}>
        {(link, index) => (
          <rect
            class="link-bears"
            classList={{ 'link-weakest': link.weakest }}
            x="0"
            width={share(link.bearsN)}
            y={(index() + 1) * ROW + 20}
            height={16}
          />
        )}
      </For>
      <line
        class="link-preload-edge"
        x1={share(props.preloadHighN)}
        x2={share(props.preloadHighN)}
        y1={20}
        y2={height()}
      />
      <text class="link-words" x="0" y="13">
        preload {props.show(props.preloadLowN)} to {props.show(props.preloadHighN)}
      </text>
      <For each={props.links}>
        {(link, index) => (
          <text class="link-words" x="0" y={(index() + 1) * ROW + 13}>
            {link.words} bears {props.show(link.bearsN)}
            {link.weakest ? ': the weakest' : ''}
          </text>
        )}
      </For>
    </svg>
  )
}
