/**
 * A drawn strip as one string of SVG. Two hundred strips are a few thousand shapes: the browser reads a string
 * many times faster than it is handed the shapes one by one, and no shape changes by itself.
 *
 * Whatever a person wrote (reasons, stage titles, initials) comes out as text, never as an element.
 */
import { TOP } from './strip-shapes'
import type { Label, Strip } from './strip-types'

const INITIALS_Y = TOP - 8

export function stripMarkup({ shapes, initials, reasons, reasonY, labels, labelY }: Strip): string {
  const drawn = shapes.map(({ look, d, paint }) => `<path class="${look}" d="${d}"${filled(paint)}/>`)
  const signed = initials.map(
    ({ x, text, paint }) =>
      `<text class="strip-initials" x="${x}" y="${INITIALS_Y}"${filled(paint)}>${escaped(text)}</text>`,
  )
  const below = (look: string, y: number) => (label: Label) =>
    `<text class="${look}" x="${label.x}" y="${y}">${whole(label)}${escaped(label.text)}</text>`
  return [
    ...drawn,
    ...signed,
    ...reasons.map(below('strip-reason', reasonY)),
    ...labels.map(below('strip-label', labelY)),
  ].join('')
}

const filled = (paint: string | undefined) => (paint ? ` fill="${escaped(paint)}"` : '')

/** The words in full, for whoever points at a short form of them. */
const whole = ({ text, full }: Label) => (text === full ? '' : `<title>${escaped(full)}</title>`)

const ESCAPES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' }
const escaped = (text: string) => text.replace(/[&<>"]/g, (one) => ESCAPES[one] ?? one)
