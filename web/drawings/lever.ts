/**
 * Wrench and adapter as a lever, to scale: from the hand to the drive, and from the drive to the fastener.
 *
 * Promises: both lengths in one scale, everything inside the drawing's own box, the hand on the left.
 */
import type { Adapter } from '../../shared/job/types'

interface LeverDrawing {
  width: number
  height: number
  /** CSS px a millimetre. */
  scale: number
  hand: Point
  drive: Point
  nut: Point
  /** Where the two lengths stand, in words. */
  wrenchAt: Point
  adapterAt: Point
}

interface Point {
  x: number
  y: number
}

/** Room round the lever for the nut, the grip and the words. */
const RIM_X = 26
const RIM_Y = 14
const TEXT = 18
/** Laid along the handle the adapter would hide it: it is drawn beside. */
const ASIDE = 9

/** `mostHigh`: an adapter that stands far out is drawn smaller rather than taller than this, CSS px. */
export function layoutLever(
  { wrenchMm, adapterMm, angleDeg }: Adapter,
  width: number,
  mostHigh = 120,
): LeverDrawing {
  const turn = (angleDeg * Math.PI) / 180
  const along = adapterMm * Math.cos(turn)
  const out = adapterMm * Math.sin(turn)
  const spanX = Math.max(wrenchMm, wrenchMm + along) - Math.min(0, wrenchMm + along)
  const spanY = Math.abs(out)
  const folded = along < 0 && spanY < 0.05 * adapterMm
  const scale = Math.min(
    (width - 2 * RIM_X) / Math.max(spanX, 1e-6),
    spanY > 0 ? (mostHigh - 2 * RIM_Y - TEXT) / spanY : Number.POSITIVE_INFINITY,
  )
  const left = RIM_X + Math.max(0, -(wrenchMm + along)) * scale
  // Out to the side is drawn upwards, so that the words stand below the handle.
  const up = Math.max(0, out) * scale
  const down = Math.max(0, -out) * scale
  const y = RIM_Y + TEXT + up + (folded ? ASIDE : 0)
  const drive = { x: left + wrenchMm * scale, y }
  const nut = { x: drive.x + along * scale, y: y - out * scale - (folded ? ASIDE : 0) }
  return {
    width,
    height: y + down + RIM_Y + TEXT,
    scale,
    hand: { x: left, y },
    drive,
    nut,
    wrenchAt: { x: left + (wrenchMm * scale) / 2, y: y + down + TEXT + 6 },
    adapterAt: {
      x: Math.min(Math.max((drive.x + nut.x) / 2, RIM_X), width - RIM_X),
      y: Math.min(drive.y, nut.y) - 12,
    },
  }
}
