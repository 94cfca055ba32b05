/**
 * Where everything lies in the section through a bolt and its hole, to scale, in mm: 0 is the face of the tapped part, down
 * is into the hole, x 0 the middle of the bolt.
 *
 * A bolt that bottoms is drawn as it would stand: its end on the last thread, and the head off the stack by what is too much.
 */

export interface BoltSection {
  dMm: number
  pitchMm: number
  boltLengthMm: number
  stackMm: number
  washerMm?: number
  /** Of a stud: what stands above stack and washer, in its nut and beyond. */
  aboveMm?: number
  /** Full thread, from the face. */
  threadDepthMm: number
  /** Drilled; a through hole has none. */
  holeDepthMm?: number
  insert?: { kind: 'wire' | 'solid'; lengthMm: number; setDownMm: number }
}

export interface Span {
  from: number
  to: number
}

interface SectionLayout {
  /** Everything, for the view: mm. */
  top: number
  bottom: number
  halfWidth: number
  head: Span & { half: number }
  washer?: Span & { half: number }
  /** The clamped parts, and the hole they leave for the bolt. */
  stack: Span & { clear: number }
  part: Span
  hole: Span & { half: number; through: boolean; tip: number }
  thread: Span
  insert?: Span & { wall: number }
  bolt: Span & { half: number }
  /** How much of the bolt the thread holds; empty where `to` is not below `from`. */
  engaged: Span
  /** Left below the bolt's end. */
  clear?: Span
  /** Head off the stack, because the end stands on the bottom. */
  gap?: Span
}

/** Head as ISO 4014: about 0.65 d high and 1.6 d across flats, which is what a section through the flats shows. */
const HEAD_HIGH = 0.65
/** A nut as ISO 4032, about 0.8 d. */
const NUT_HIGH = 0.8
const HEAD_HALF = 0.8

export function sectionOf(bolt: BoltSection): SectionLayout {
  const { dMm, boltLengthMm, stackMm, washerMm = 0, aboveMm, threadDepthMm, holeDepthMm, insert } = bolt
  const grip = stackMm + washerMm
  const reach = boltLengthMm - grip - (aboveMm ?? 0)
  const through = holeDepthMm === undefined
  const tooFar = through ? 0 : Math.max(0, reach - threadDepthMm)
  const end = reach - tooFar
  // A bolt that bottoms keeps its head off the stack; a stud stands out further, and its nut still seats.
  const proud = aboveMm === undefined ? tooFar : 0
  const seat = -grip - proud
  const boltTop = aboveMm === undefined ? seat : -grip - aboveMm - tooFar
  const headHigh = aboveMm === undefined ? HEAD_HIGH : NUT_HIGH
  const deep = holeDepthMm ?? threadDepthMm
  const half = dMm / 2
  // The point a drill of 118° leaves below a blind hole.
  const tip = through ? 0 : half / Math.tan((59 * Math.PI) / 180)
  const thread = { from: 0, to: threadDepthMm }
  const sleeve = insert && {
    from: insert.setDownMm,
    to: Math.min(insert.setDownMm + insert.lengthMm, deep),
    wall: insert.kind === 'wire' ? 0.6 * bolt.pitchMm : Math.max(1.2 * bolt.pitchMm, 0.15 * dMm),
  }
  const holds = sleeve ?? thread
  const halfWidth = Math.max(1.7 * dMm, half + (sleeve?.wall ?? 0) + 0.6 * dMm)
  const partEnd = through ? deep : deep + tip + 0.5 * dMm
  return {
    top: Math.min(boltTop, seat - headHigh * dMm),
    bottom: Math.max(partEnd, end),
    halfWidth,
    head: { from: seat - headHigh * dMm, to: seat, half: HEAD_HALF * dMm },
    ...(washerMm > 0 ? { washer: { from: seat, to: seat + washerMm, half: 1.05 * dMm } } : {}),
    stack: { from: -stackMm, to: 0, clear: 0.55 * dMm },
    part: { from: 0, to: partEnd },
    hole: { from: 0, to: deep, half, through, tip },
    thread,
    ...(sleeve ? { insert: sleeve } : {}),
    bolt: { from: boltTop, to: end, half },
    engaged: { from: holds.from, to: Math.max(holds.from, Math.min(end, holds.to)) },
    ...(end < threadDepthMm ? { clear: { from: Math.max(0, end), to: threadDepthMm } } : {}),
    ...(proud > 0 ? { gap: { from: seat + washerMm, to: -stackMm } } : {}),
  }
}
