/**
 * What the hole is cut in: shear strength of common materials, MPa.
 *
 * Typical figures with their source; a casting varies, and the maker's data stand above them. Ratio τ/Rm: VDI 2230 gives
 * about 0.6 to 0.65 for steels, 0.7 for wrought aluminium and 0.9 for grey iron. All from memory.
 */
import type { BasisStatus } from './basis'
import { hasText, impossible, impossibleIfGiven, partsOf, shown } from './numbers'
import { type FastenerRefusal, no } from './refusals'
import { type HoleMaterialId, holeMaterialVocabulary, understand } from './vocabulary'

export interface HoleMaterial {
  id: string
  words: string
  rmMPa: number
  /** Typical, before the reserve. */
  shearMPa: number
  /** What of it is reckoned with. */
  reserve: number
  source: string
  status: BasisStatus
}

/**
 * What is held back of a strength that is typical and from memory, as a share of it.
 *
 * Castings 0.7: the strength in a casting may fall to 70 % of what its standard gives for separately cast bars, and grey iron
 * falls as far with the wall's thickness (EN 1706, EN 1561; memory). Wrought and steel 0.85: lists and tempers of one name
 * differ by about that (memory). A strength somebody enters from the maker's data is reckoned with whole.
 */
export const RESERVE = { cast: 0.7, other: 0.85, entered: 1 } as const

const VDI = 'VDI 2230 Part 1, table of shear strengths (memory)'
const RATIO = 'tensile strength of the named standard, τ/Rm of VDI 2230 Part 1 (memory)'

const material = (
  id: HoleMaterialId,
  words: string,
  rmMPa: number,
  shearMPa: number,
  source = VDI,
): HoleMaterial => ({
  id,
  words,
  rmMPa,
  shearMPa,
  reserve: /cast/.test(words) ? RESERVE.cast : RESERVE.other,
  source,
  status: 'memory',
})

export const HOLE_MATERIALS: readonly HoleMaterial[] = [
  material('cast_iron', 'grey cast iron, EN-GJL-250', 250, 225, RATIO),
  material('ductile_iron', 'ductile cast iron, EN-GJS-400', 400, 360, RATIO),
  material('cast_aluminium', 'cast aluminium, AlSi9Cu3 pressure die cast', 240, 140),
  material('cast_aluminium_gravity', 'cast aluminium, AlSi9Cu3 sand or gravity cast', 180, 110),
  material('cast_aluminium_heat_treated', 'cast aluminium, AlSi7Mg gravity cast and aged', 210, 130),
  material('wrought_aluminium', 'wrought aluminium, AlMgSi1', 290, 200),
  material('wrought_aluminium_strong', 'wrought aluminium, AlZnMgCu1.5', 540, 370),
  material('steel', 'mild structural steel, Rm 400', 400, 240, RATIO),
  material('steel_500', 'machine steel, Rm 500', 500, 300, RATIO),
  material('steel_700', 'quenched and tempered steel, Rm 700', 700, 460),
  material('bronze', 'cast tin bronze, Rm 240', 240, 144, 'EN 1982, cast tin bronze, τ/Rm 0.6 (memory)'),
]

/** The material by its id or a word for it, or figures of one's own: shear strength, or tensile strength and ratio. */
export type HoleMaterialGiven =
  | string
  | HoleMaterial
  | { shearMPa: number; rmMPa?: number }
  | { rmMPa: number; shearRatio?: number }

/** A hole material by the vocabulary; any other word is asked about, for a stud into unknown material proves nothing. */
export function holeMaterial(given: HoleMaterialGiven | null | undefined): HoleMaterial | FastenerRefusal {
  if (given === undefined || given === null) return no('input_missing', { name: 'Hole material' })
  if (typeof given === 'object') return entered(given)
  const known = HOLE_MATERIALS.map(({ id }) => id)
  if (!hasText(given) || given.trim() === '') return no('material_unknown', { text: shown(given), known })
  const understood = understand(given.slice(0, LONGEST), holeMaterialVocabulary())
  const text = given.slice(0, 60)
  if (!('id' in understood))
    return understood.could.length > 0
      ? no('material_unclear', { text, could: understood.could })
      : no('material_unknown', { text, known })
  return HOLE_MATERIALS.find(({ id }) => id === understood.id) ?? no('material_unknown', { text, known })
}

/** No plan names a material in more signs. */
const LONGEST = 200

function entered(given: object): HoleMaterial | FastenerRefusal {
  const parts: { shearMPa?: number; rmMPa?: number; shearRatio?: number; words?: string; id?: string } =
    partsOf(given)
  const fault =
    impossibleIfGiven('Shear strength', parts.shearMPa, 'stress') ??
    (parts.shearMPa === undefined || parts.rmMPa !== undefined
      ? impossible('Tensile strength', parts.rmMPa, 'stress')
      : undefined) ??
    impossibleIfGiven('Ratio of shear to tensile strength', parts.shearRatio, 'ratio')
  if (fault) return fault
  const listed = HOLE_MATERIALS.find(({ id, shearMPa }) => id === parts.id && shearMPa === parts.shearMPa)
  if (listed) return listed
  const shearMPa = parts.shearMPa ?? (parts.rmMPa ?? 0) * (parts.shearRatio ?? 0.6)
  return {
    id: 'entered',
    words: hasText(parts.words) ? parts.words : 'as entered',
    rmMPa: parts.rmMPa ?? shearMPa / 0.6,
    shearMPa,
    reserve: RESERVE.entered,
    source: 'whoever entered it',
    status: 'computed',
  }
}
