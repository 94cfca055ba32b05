import { DEFAULT_FORMAT, makeFormat } from '../../shared/format'
import type { Figures, Words } from '../../shared/words'

/** Numbers as a shop writes them that has set nothing. */
export const figures: Figures = makeFormat({ ...DEFAULT_FORMAT, timeZone: 'UTC' })

/** As a shop writes them that has a decimal comma. */
export const comma: Figures = makeFormat({ ...DEFAULT_FORMAT, decimalMark: ',', timeZone: 'UTC' })

/** Everybody by their id, every moment by its hour and minute. */
export const words: Words = {
  ...figures,
  person: (id) => id,
  moment: (at) => new Date(at).toISOString().slice(11, 16),
  date: (day) => day,
}
